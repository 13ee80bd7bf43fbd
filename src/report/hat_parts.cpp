#include "core/units.h"
#include "report/figures.h"
#include "report/hat.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

/// "2 sc", or "2 sc in each of 5 stitches" where a round more than doubles.
std::string plain_words(int count, int into_each, const std::string& st) {
    if (into_each == 1) return std::to_string(count) + " " + st;
    return std::to_string(into_each) + " " + st + " in each of " + std::to_string(count);
}

std::string group_words(const IncreaseGroup& group, const CrownRound& round, const std::string& st) {
    const std::string increase =
        round.into_increase == 2 ? "inc" : std::to_string(round.into_increase) + " " + st + " in the next";
    std::string words;
    if (group.before > 0) words += plain_words(group.before, round.into_plain, st) + ", ";
    words += increase;
    if (group.after > 0) words += ", " + plain_words(group.after, round.into_plain, st);
    if (group.times == 1) return words;
    return "*" + words + "* " + std::to_string(group.times) + " times";
}

}  // namespace

std::string round_words(const CrownRound& round, const std::string& abbreviation) {
    if (round.number == 1) return std::to_string(round.stitches) + " " + abbreviation + " in a start ring";
    if (round.groups.empty()) {
        return round.into_plain == 1
                   ? abbreviation + " in each stitch"
                   : std::to_string(round.into_plain) + " " + abbreviation + " in each stitch";
    }
    std::string words;
    for (const auto& group : round.groups)
        words += (words.empty() ? "" : ", ") + group_words(group, round, abbreviation);
    return words;
}

std::string length_text(double mm, SizeUnit units) {
    return units == SizeUnit::cm ? fixed(mm / 10.0, 1) + " cm" : fixed(mm / mm_per_inch, 1) + " in";
}

std::string cautions_text(const std::vector<Caution>& cautions) {
    if (cautions.empty()) return {};
    std::string text = "\nFor babies and children:\n";
    for (const auto& caution : cautions) text += paragraph("  - ", caution.text);
    return text;
}

Document cautions_document(const std::vector<Caution>& cautions) {
    Document list = Document::array();
    for (const auto& caution : cautions)
        list.push_back({{"code", caution.code}, {"message", caution.text}, {"source", caution.source}});
    return list;
}

}  // namespace ridgetally

#include "report/phrases.h"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "core/units.h"
#include "report/figures.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

std::string padded(std::string text, std::size_t columns) {
    const std::size_t used = columns_of(text);
    if (used < columns) text.append(columns - used, ' ');
    return text;
}

std::string_view worked_phrase(Worked worked) {
    return worked == Worked::flat ? "worked flat (turned)" : "worked in the round";
}

std::string reference_name(const ScaleResult& scale, const Catalog& catalog) {
    if (scale.reference == "ruler")
        return scale.unit == LengthUnit::mm ? "ruler in millimetres" : "ruler in inches";
    if (scale.reference == "two-points") return "two points given by hand";
    const FlatObject* object = find_flat_object(catalog, scale.reference);
    return object != nullptr ? object->name : scale.reference;
}

std::string distance_text(double mm, SizeUnit units) {
    return units == SizeUnit::cm ? fixed(mm / 10.0, 0) + " cm" : fixed(mm / mm_per_inch, 0) + " in";
}

/// Below that a recognised stitch, whatever its loop, is called a guess. Of 164 drawings named with 0.95 or
/// more one was wrong, of 139 photographs made harder 16, all of one piece of fuzzy yarn; with 0.8 to 0.95
/// all 6 drawings were right and 19 of 22 photographs wrong.
constexpr double sure_stitch = 0.95;
/// Below that the loop is called a guess. Not swept.
constexpr double sure_loop = 0.8;

std::string recognised_phrase(const StitchReading& stitch) {
    const auto percent = [](double p) { return fixed(100.0 * p, 0) + " %"; };
    const bool sure = stitch.any_loop_confidence >= sure_stitch;
    if ((sure && stitch.confidence >= sure_loop) || !stitch.family)
        return "recognised, " + percent(stitch.confidence) + " sure";
    if (sure)
        return "recognised, " + percent(stitch.any_loop_confidence) +
               " sure, but through which loop is a guess";
    return "a guess, " + percent(stitch.any_loop_confidence) + " sure; tell it with --stitch";
}

/// "17 stitches (16 to 18)".
std::string whole_count(const Measured& count, std::string_view what) {
    return fixed(count.value, 0) + " " + std::string(what) +
           range_note(static_cast<int>(std::ceil(count.low95())),
                      static_cast<int>(std::floor(count.high95())));
}

}  // namespace

std::string capitalised(std::string_view word) {
    std::string result(word);
    if (!result.empty()) result[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(result[0])));
    return result;
}

std::string stitch_sentence(const StitchReading& stitch, const Catalog& catalog, Terms terms) {
    std::string text = "Stitch not recognised";
    if (stitch.family) {
        const StitchName& name = stitch_name(catalog, *stitch.family, terms);
        text = capitalised(name.name);
        if (name.abbreviation != no_abbreviation) text += " (" + name.abbreviation + ")";
    }
    if (stitch.worked) text += ", " + std::string(worked_phrase(*stitch.worked));
    if (!stitch.family && !stitch.worked) return text + ".";
    if (stitch.source == StitchSource::told) return text + "; as told.";
    return text + "; " + recognised_phrase(stitch) + ".";
}

std::string gauge_row(std::string_view label, const Measured& per_10cm, SizeUnit units) {
    const std::string metric = with_plus_minus(per_10cm, 1) + " per 10 cm";
    const std::string inches = with_plus_minus(per_4in(per_10cm), 1) + " per 4 in";
    const bool metric_first = units == SizeUnit::cm;
    return "  " + padded(std::string(label), 10) + padded(metric_first ? metric : inches, 26) +
           (metric_first ? inches : metric) + "\n";
}

std::string counted_line(const Overlay& overlay, std::optional<Worked> worked) {
    std::string counts;
    if (overlay.stitches_counted > 0)
        counts += std::to_string(overlay.stitches_counted) + " stitches along one row";
    if (overlay.rows_counted > 0) {
        counts += (counts.empty() ? "" : ", ") + std::to_string(overlay.rows_counted) + " " +
                  std::string(row_word(worked));
    }
    return counts.empty() ? counts : paragraph("Counted in the picture: ", counts + ".");
}

std::string range_note(int least, int most) {
    if (least >= most) return {};
    return " (" + std::to_string(least) + " to " + std::to_string(most) + ")";
}

std::string size_figure(const Measured& mm, SizeUnit units) {
    const bool metric = units == SizeUnit::cm;
    return with_plus_minus(scaled(mm, metric ? 0.1 : 1.0 / mm_per_inch), metric ? 1 : 2) +
           (metric ? " cm" : " in");
}

std::string whole_swatch_line(const SwatchResult& result, SizeUnit units) {
    std::string counts;
    if (result.stitches) counts += whole_count(*result.stitches, "stitches");
    if (result.rows)
        counts += (counts.empty() ? "" : " by ") + whole_count(*result.rows, row_word(result.stitch.worked));
    std::string size;
    if (result.width_mm) size += size_figure(*result.width_mm, units) + " wide";
    if (result.height_mm)
        size += (size.empty() ? "" : ", ") + size_figure(*result.height_mm, units) + " high";
    if (counts.empty() && size.empty()) return {};
    return paragraph("Whole swatch: ", counts + (counts.empty() || size.empty() ? "" : "; ") + size + ".");
}

std::string scale_sentence(const ScaleResult& scale, const Catalog& catalog, SizeUnit units) {
    std::string text =
        reference_name(scale, catalog) + ", " + fixed(scale.px_per_mm.value, 2) + " pixels per mm";
    if (scale.camera_distance_mm > 0.0) {
        text += "; camera about " + distance_text(scale.camera_distance_mm, units) + " away, tilted " +
                fixed(scale.tilt_deg, 0) + "\u00B0";
    }
    return text + ".";
}

std::vector<RivalGauge> rivals_that_matter(std::vector<RivalGauge> rivals) {
    constexpr double least_score = 0.9;
    constexpr std::size_t most = 3;
    std::erase_if(rivals, [](const RivalGauge& rival) { return rival.score < least_score; });
    std::stable_sort(rivals.begin(), rivals.end(),
                     [](const RivalGauge& a, const RivalGauge& b) { return a.score > b.score; });
    if (rivals.size() > most) rivals.resize(most);
    return rivals;
}

std::string corrected_line(const std::vector<std::string>& corrected) {
    std::string list;
    for (const auto& what : corrected) list += (list.empty() ? "" : ", ") + what;
    return list.empty() ? list : paragraph("Set by hand: ", list + ".");
}

std::string warning_lines(const std::vector<Warning>& warnings) {
    std::string text;
    for (const auto& warning : warnings)
        text += paragraph("  - ", capitalised(warning.message) + " [" + warning.code + "]");
    return text.empty() ? text : "\nTake care:\n" + text;
}

std::string title_line(const PhotoFacts& photo, const std::vector<PhotoFacts>& photos) {
    std::string text = photo.file;
    for (std::size_t i = 1; i < photos.size(); ++i) text += ", " + photos[i].file;
    return text + "\n";
}

}  // namespace ridgetally

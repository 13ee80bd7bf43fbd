#include <cmath>

#include "core/units.h"
#include "report/figures.h"
#include "report/hat.h"
#include "report/phrases.h"
#include "report/table.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

std::string measured_text(const Measured& mm, SizeUnit units) {
    const bool metric = units == SizeUnit::cm;
    return with_plus_minus(scaled(mm, metric ? 0.1 : 1.0 / mm_per_inch), 1) + (metric ? " cm" : " in");
}

std::string rounds(int count) { return std::to_string(count) + (count == 1 ? " round" : " rounds"); }

/// Below the head of nearly every grown-up, and of the average newborn child.
constexpr double hardly_any = 0.0005;

std::string people_text(const HeadAmongPeople& people) {
    if (people.average_age_months) {
        const double months = *people.average_age_months;
        return "the average of children of " + fixed(months, 0) + " months";
    }
    if (people.women_smaller < hardly_any && people.men_smaller < hardly_any)
        return "smaller than the average of newborn children";
    return fixed(100.0 * people.men_smaller, 0) + " of 100 men and " +
           fixed(100.0 * people.women_smaller, 0) + " of 100 women have a smaller one";
}

std::string gauge_lines(const HatGauge& gauge, const Catalog& catalog, const HatOptions& options) {
    const StitchName& name = stitch_name(catalog, gauge.stitch, options.terms);
    const double span_mm = options.units == SizeUnit::cm ? span_10cm_mm : span_4in_mm;
    const auto over_span = [&](const Measured& size) {
        return with_plus_minus(reciprocal(span_mm, size), 1);
    };
    std::string text =
        capitalised(name.name) + " (" + name.abbreviation + "), " +
        (options.terms == Terms::us ? "US terms" : "UK terms") + "; " +
        std::string(gauge_word(options.terms)) + " " + over_span(gauge.stitch_width_mm) + " stitches and " +
        over_span(gauge.row_height_mm) + " rounds = " + (options.units == SizeUnit::cm ? "10 cm" : "4 in") +
        ". A crown that lies flat adds " + with_plus_minus(gauge.flat_increase, 1) + " stitches each round.";
    return paragraph("", text) + paragraph("Gauge: ", gauge.source + ".");
}

std::string ease_words(double ease) {
    const std::string share = fixed(100.0 * std::abs(ease), 1) + " %";
    if (share == "0.0 %") return "as large as the head";
    return share + (ease < 0.0 ? " smaller than the head" : " larger than the head");
}

std::string head_words(const HatPlan& hat, const Catalog& catalog, SizeUnit units) {
    const Head& head = hat.shape.head;
    std::string text = length_text(head.circumference_mm, units);
    if (head.low_mm) {
        return text + " (" + head.name + ": " + length_text(*head.low_mm, units) + " to " +
               length_text(*head.high_mm, units) + ")";
    }
    return text + " (" + people_text(among_people(head.circumference_mm, catalog)) + ")";
}

std::string one_hat(const HatPlan& hat, const HatGauge& gauge, const Catalog& catalog,
                    const HatOptions& options) {
    const auto size = [&](double mm) { return length_text(mm, options.units); };
    std::string text = paragraph("  Head      ", head_words(hat, catalog, options.units));
    text += paragraph("  Hat       ", std::to_string(hat.stitches) + " stitches, " +
                                          measured_text(hat.circumference_mm, options.units) + " around, " +
                                          ease_words(hat.ease) + "; published hats for this head are " +
                                          size(hat.shape.circumference_low_mm) + " to " +
                                          size(hat.shape.circumference_high_mm));
    text += paragraph("  Crown     ", size(hat.shape.crown_diameter_mm) + " across (head / pi would be " +
                                          size(hat.shape.crown_diameter_of_head_mm) + ")");
    text += paragraph("  Height    ", measured_text(hat.height_mm, options.units) +
                                          " from the centre of the crown to the edge");
    const std::string& st = stitch_name(catalog, gauge.stitch, options.terms).abbreviation;
    std::vector<std::vector<Cell>> rows;
    for (const auto& round : hat.crown) {
        rows.push_back({static_cast<double>(round.number), static_cast<double>(round.stitches),
                        measured_text(round.diameter_mm, options.units), round_words(round, st)});
    }
    text += "\nCrown (inc: 2 " + st + " in one stitch; check the width lying flat)\n" +
            columns_text({"round", "stitches", "across", "work"}, rows);
    const int first = static_cast<int>(hat.crown.size()) + 1;
    const int last = static_cast<int>(hat.crown.size()) + hat.body_rounds;
    text += "\nBody\n";
    if (hat.body_rounds > 0) {
        const std::string which = hat.body_rounds == 1
                                      ? "round " + std::to_string(first)
                                      : "rounds " + std::to_string(first) + " to " + std::to_string(last);
        text += paragraph("  ", which + ": " + st + " in each of the " + std::to_string(hat.stitches) +
                                    " stitches, " + rounds(hat.body_rounds));
    }
    if (hat.brim_rounds > 0)
        text +=
            paragraph("  ", "of these the last " + rounds(hat.brim_rounds) + " in the stitch of the brim");
    if (hat.turn_up_rounds > 0)
        text += paragraph("  ", "then " + rounds(hat.turn_up_rounds) + " more, folded up");
    return text;
}

std::string side_by_side(const std::vector<HatPlan>& hats, const HatOptions& options) {
    const auto size = [&](double mm) { return length_text(mm, options.units); };
    std::vector<std::vector<Cell>> rows;
    std::vector<std::string> names = {"round"};
    std::size_t most_rounds = 0;
    for (const auto& hat : hats) {
        const std::string head = size(hat.shape.head.circumference_mm);
        names.push_back(head);
        most_rounds = std::max(most_rounds, hat.crown.size());
        rows.push_back({head, static_cast<double>(hat.stitches), size(hat.circumference_mm.value),
                        size(hat.shape.crown_diameter_mm), static_cast<double>(hat.crown.size()),
                        static_cast<double>(hat.body_rounds), size(hat.height_mm.value)});
    }
    std::string text =
        columns_text({"head", "stitches", "around", "crown", "crown rounds", "body rounds", "height"}, rows);
    std::vector<std::vector<Cell>> counts;
    for (std::size_t k = 0; k < most_rounds; ++k) {
        auto& row = counts.emplace_back();
        row.emplace_back(static_cast<double>(k + 1));
        for (const auto& hat : hats) {
            if (k < hat.crown.size()) {
                row.emplace_back(static_cast<double>(hat.crown[k].stitches));
            } else {
                row.emplace_back();
            }
        }
    }
    return text + "\nStitches after each round of the crown; ask for one head to get the rounds in words\n" +
           columns_text(names, counts);
}

}  // namespace

std::string hats_text(const HatsPlanned& planned, const Catalog& catalog, const HatOptions& options) {
    std::string text = gauge_lines(planned.gauge, catalog, options) + "\n";
    std::vector<Reason> reasons = planned.gauge.reasons;
    for (const auto& hat : planned.hats)
        reasons.insert(reasons.end(), hat.reasons.begin(), hat.reasons.end());
    text += planned.hats.size() == 1 ? one_hat(planned.hats.front(), planned.gauge, catalog, options)
                                     : side_by_side(planned.hats, options);
    if (!reasons.empty()) text += "\nTake care:\n" + reasons_text(reasons);
    text += cautions_text(planned.cautions);
    if (options.why == Why::hidden) return text;
    for (const auto& hat : planned.hats) text += workings_text(hat.workings);
    return text;
}

std::string head_text(const HeadForStitches& answer, const HatGauge& gauge,
                      const std::vector<Caution>& cautions, const Catalog& catalog,
                      const HatOptions& options) {
    std::string text = gauge_lines(gauge, catalog, options) + "\n";
    text += paragraph("", std::to_string(answer.stitches) + " stitches are " +
                              measured_text(answer.circumference_mm, options.units) +
                              " around, a flat crown of " +
                              measured_text(answer.crown_diameter_mm, options.units) + " across.");
    text += paragraph("", "That is a hat for a head of " + length_text(answer.head_mm, options.units) + " (" +
                              people_text(answer.people) + "); at published ease for heads from " +
                              length_text(answer.head_low_mm, options.units) + " to " +
                              length_text(answer.head_high_mm, options.units) + ".");
    if (!gauge.reasons.empty()) text += "\nTake care:\n" + reasons_text(gauge.reasons);
    text += cautions_text(cautions);
    if (options.why == Why::shown) text += workings_text(answer.workings);
    return text;
}

}  // namespace ridgetally

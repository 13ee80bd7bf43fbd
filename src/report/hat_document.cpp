#include "report/document_parts.h"
#include "report/figures.h"
#include "report/hat.h"

namespace ridgetally {
namespace {

Document gauge_block(const HatGauge& gauge) {
    return {{"stitch", key_of(gauge.stitch)},
            {"stitch_width_mm", measured_document(gauge.stitch_width_mm)},
            {"row_height_mm", measured_document(gauge.row_height_mm)},
            {"flat_increase", measured_document(gauge.flat_increase)},
            {"source", gauge.source}};
}

Document head_block(const Head& head) {
    Document block = {{"mm", rounded(head.circumference_mm)}, {"name", head.name}, {"source", head.source}};
    if (head.low_mm) block["low_mm"] = rounded(*head.low_mm);
    if (head.high_mm) block["high_mm"] = rounded(*head.high_mm);
    return block;
}

Document groups_document(const CrownRound& round) {
    Document list = Document::array();
    for (const auto& group : round.groups)
        list.push_back({{"before", group.before}, {"after", group.after}, {"times", group.times}});
    return list;
}

Document rounds_document(const HatPlan& hat, const std::string& abbreviation) {
    Document list = Document::array();
    for (const auto& round : hat.crown) {
        list.push_back({{"round", round.number},
                        {"stitches", round.stitches},
                        {"diameter_mm", measured_document(round.diameter_mm)},
                        {"into_plain", round.into_plain},
                        {"into_increase", round.into_increase},
                        {"groups", groups_document(round)},
                        {"words", round_words(round, abbreviation)}});
    }
    return list;
}

Document hat_block(const HatPlan& hat, const std::string& abbreviation, Why why) {
    Document block;
    block["head"] = head_block(hat.shape.head);
    block["ease"] = rounded(hat.ease);
    block["circumference_mm"] = measured_document(hat.circumference_mm);
    block["wanted_circumference_mm"] = rounded(hat.shape.circumference_mm);
    block["circumference_low_mm"] = rounded(hat.shape.circumference_low_mm);
    block["circumference_high_mm"] = rounded(hat.shape.circumference_high_mm);
    block["crown_diameter_mm"] = rounded(hat.shape.crown_diameter_mm);
    block["crown_diameter_of_head_mm"] = rounded(hat.shape.crown_diameter_of_head_mm);
    block["stitches"] = hat.stitches;
    block["added_each_round"] = rounded(hat.added_each_round);
    block["crown"] = rounds_document(hat, abbreviation);
    block["body_rounds"] = hat.body_rounds;
    block["brim_rounds"] = hat.brim_rounds;
    block["turn_up_rounds"] = hat.turn_up_rounds;
    block["height_mm"] = measured_document(hat.height_mm);
    block["area_cm2"] = rounded(hat.shape.area_mm2 / 100.0);
    block["reasons"] = reasons_document(hat.reasons);
    if (why == Why::shown) block["why"] = workings_document(hat.workings);
    return block;
}

}  // namespace

Document hats_document(const HatsPlanned& planned, const Catalog& catalog, const HatOptions& options) {
    Document document = document_head("hat");
    document["terms"] = options.terms == Terms::us ? "us" : "uk";
    document["gauge"] = gauge_block(planned.gauge);
    document["reasons"] = reasons_document(planned.gauge.reasons);
    const std::string abbreviation = stitch_name(catalog, planned.gauge.stitch, options.terms).abbreviation;
    document["hats"] = Document::array();
    for (const auto& hat : planned.hats)
        document["hats"].push_back(hat_block(hat, abbreviation, options.why));
    document["cautions"] = cautions_document(planned.cautions);
    return document;
}

Document head_document(const HeadForStitches& answer, const HatGauge& gauge,
                       const std::vector<Caution>& cautions, const HatOptions& options) {
    Document document = document_head("hat");
    document["gauge"] = gauge_block(gauge);
    document["reasons"] = reasons_document(gauge.reasons);
    Document block;
    block["stitches"] = answer.stitches;
    block["circumference_mm"] = measured_document(answer.circumference_mm);
    block["crown_diameter_mm"] = measured_document(answer.crown_diameter_mm);
    block["head_mm"] = rounded(answer.head_mm);
    block["head_low_mm"] = rounded(answer.head_low_mm);
    block["head_high_mm"] = rounded(answer.head_high_mm);
    block["men_smaller"] = rounded(answer.people.men_smaller);
    block["women_smaller"] = rounded(answer.people.women_smaller);
    if (answer.people.average_age_months)
        block["average_age_months"] = rounded(*answer.people.average_age_months);
    document["head"] = block;
    document["cautions"] = cautions_document(cautions);
    if (options.why == Why::shown) document["why"] = workings_document(answer.workings);
    return document;
}

}  // namespace ridgetally

#include <cmath>
#include <numbers>

#include "advice/hat_plan.h"
#include "advice/stitch_shape.h"

namespace ridgetally {
namespace {

void note_shape(const HatGauge& gauge, const Catalog& catalog, std::vector<Reason>& reasons) {
    const auto& published = facts_of(catalog, gauge.stitch).height_to_width;
    const double shape = gauge.row_height_mm.value / gauge.stitch_width_mm.value;
    // Three published spreads: what one gauge in some hundred does.
    if (std::abs(shape - published.mean) > 3.0 * published.std) {
        reasons.push_back({"unusual-shape", "your stitches are much " +
                                                std::string(shape > published.mean ? "taller" : "lower") +
                                                " for their width than published gauges of this stitch: "
                                                "check the rows of the gauge, and the stitch"});
    }
}

void add_workings(const HatRequest& request, HatGauge& gauge) {
    const auto& stitches = request.gauge.stitches_per_100mm;
    gauge.workings.push_back({"stitches over 10 cm", stitches, "", "as measured", {}, request.gauge.source});
    gauge.workings.push_back({"stitches over 4 in",
                              scaled(stitches, span_4in_mm / span_10cm_mm),
                              "",
                              "stitches over 10 cm x 1.016",
                              {{"stitches over 10 cm", stitches.value, ""}},
                              "4 in are 101.6 mm"});
    gauge.workings.push_back({"stitch width",
                              gauge.stitch_width_mm,
                              "mm",
                              "100 mm / stitches",
                              {{"stitches over 10 cm", stitches.value, ""}},
                              "definition"});
    if (request.gauge.rows_per_100mm) {
        const auto& rows = *request.gauge.rows_per_100mm;
        gauge.workings.push_back({"rounds over 10 cm", rows, "", "as measured", {}, request.gauge.source});
        gauge.workings.push_back({"rounds over 4 in",
                                  scaled(rows, span_4in_mm / span_10cm_mm),
                                  "",
                                  "rounds over 10 cm x 1.016",
                                  {{"rounds over 10 cm", rows.value, ""}},
                                  "4 in are 101.6 mm"});
    }
    gauge.workings.push_back({"round height",
                              gauge.row_height_mm,
                              "mm",
                              "100 mm / rounds",
                              {{"rounds over 10 cm", span_10cm_mm / gauge.row_height_mm.value, ""}},
                              "definition"});
    gauge.workings.push_back({"stitches a flat crown adds each round",
                              gauge.flat_increase,
                              "",
                              "2 pi round height / stitch width",
                              {{"round height", gauge.row_height_mm.value, "mm"},
                               {"stitch width", gauge.stitch_width_mm.value, "mm"}},
                              "geometry: each round adds its height to the radius"});
}

}  // namespace

Outcome<HatGauge> hat_gauge(const HatRequest& request, const Catalog& catalog) {
    if (request.stitch == StitchFamily::stockinette)
        return Refusal{"advice", "no-plan",
                       "hats are planned for crochet from the crown down, not for knitting",
                       "tell a crochet stitch and its gauge"};
    HatGauge gauge;
    gauge.source = request.gauge.source;
    gauge.reasons = request.gauge_reasons;
    gauge.stitch_width_mm = request.gauge.stitch_width_mm();
    if (const auto height = request.gauge.row_height_mm()) {
        gauge.row_height_mm = *height;
        gauge.stitch =
            request.stitch.value_or(family_of_shape(height->value / gauge.stitch_width_mm.value, catalog));
        if (!request.stitch)
            gauge.reasons.push_back(
                {"stitch-by-shape",
                 "the stitch was not told: taken for the one whose published height and width are nearest"});
        note_shape(gauge, catalog, gauge.reasons);
    } else if (request.stitch) {
        gauge.stitch = *request.stitch;
        const auto& published = facts_of(catalog, gauge.stitch).height_to_width;
        gauge.row_height_mm = with(scaled(gauge.stitch_width_mm, published.mean),
                                   {{"published height:width", published.std / published.mean}});
        gauge.reasons.push_back({"rows-assumed",
                                 "the rows were not told: taken from published gauges of this stitch; "
                                 "measure yours before you trust diameters and rounds"});
        gauge.workings.push_back({"height over width of the stitch",
                                  {published.mean, published.std, {}},
                                  "",
                                  "from the facts",
                                  {},
                                  published.source});
    } else {
        return Refusal{"advice", "no-rows", "neither rows nor stitch were told",
                       "tell the gauge with its rows, as in 13x16, or the stitch"};
    }
    gauge.flat_increase = flat_increase(gauge.stitch_width_mm, gauge.row_height_mm);
    add_workings(request, gauge);
    return gauge;
}

HeadForStitches head_for(int stitches, const HatRequest& request, const HatGauge& gauge,
                         const Catalog& catalog) {
    const UsualRange& ease = catalog.hat_practice.ease;
    HeadForStitches answer;
    answer.stitches = stitches;
    answer.circumference_mm = scaled(gauge.stitch_width_mm, stitches);
    answer.crown_diameter_mm = scaled(answer.circumference_mm, 1.0 / std::numbers::pi);
    const double around = answer.circumference_mm.value;
    const Ease& told = request.wish.ease;
    answer.head_mm =
        told.length_mm ? around - *told.length_mm : around / (1.0 + told.share.value_or(ease.usual));
    answer.head_low_mm = around / (1.0 + ease.high);
    answer.head_high_mm = around / (1.0 + ease.low);
    answer.people = among_people(answer.head_mm, catalog);
    const bool as_told = told.share || told.length_mm;
    const double share = around / answer.head_mm - 1.0;
    const Given around_given{"hat around", around, "mm"};
    answer.workings = gauge.workings;
    answer.workings.push_back({"stitches", exact(stitches), "", "as told", {}, "the maker"});
    answer.workings.push_back({"hat around",
                               answer.circumference_mm,
                               "mm",
                               "stitches x stitch width",
                               {{"stitches", static_cast<double>(stitches), ""},
                                {"stitch width", gauge.stitch_width_mm.value, "mm"}},
                               "definition"});
    answer.workings.push_back(
        {"crown across", answer.crown_diameter_mm, "mm", "hat around / pi", {around_given}, "geometry"});
    answer.workings.push_back({"head",
                               exact(answer.head_mm),
                               "mm",
                               "hat around / (1 + ease / 100)",
                               {around_given, {"ease", 100.0 * share, "%"}},
                               as_told ? "the maker" : ease.source});
    answer.workings.push_back({"head, at the least",
                               exact(answer.head_low_mm),
                               "mm",
                               "hat around / (1 + ease / 100)",
                               {around_given, {"ease", 100.0 * ease.high, "%"}},
                               ease.source});
    answer.workings.push_back({"head, at the most",
                               exact(answer.head_high_mm),
                               "mm",
                               "hat around / (1 + ease / 100)",
                               {around_given, {"ease", 100.0 * ease.low, "%"}},
                               ease.source});
    const auto people = people_workings(answer.head_mm, answer.people, catalog);
    answer.workings.insert(answer.workings.end(), people.begin(), people.end());
    return answer;
}

}  // namespace ridgetally

#include "advice/hook_workings.h"

#include <cmath>

namespace ridgetally {
namespace {

const char* const by_definition = "definition";

std::string span_name(double span_mm) {
    if (span_mm == span_10cm_mm) return "10 cm";
    if (span_mm == span_4in_mm) return "4 in";
    return "the span";
}

/// One direction of the gauge: stitches or rows.
struct Direction {
    std::string count;  ///< "stitches", "rows"
    std::string size;   ///< "stitch width", "row height"
};

void add_direction(const Direction& names, const Measured& made_per_100mm, double wanted,
                   const SizeError& error, const MadeGauge& made, const HookRequest& request,
                   Workings& workings) {
    const double span_mm = request.want.span_mm;
    const std::string over = " over " + span_name(span_mm);
    const Measured counted = scaled(made_per_100mm, span_mm / span_10cm_mm);
    workings.push_back({names.count + over + ", yours", counted, "", "as measured", {}, made.source});
    workings.push_back({names.count + over + ", wanted", exact(wanted), "", "as told", {}, "the pattern"});
    workings.push_back({names.size + ", yours",
                        reciprocal(span_mm, counted),
                        "mm",
                        "span / " + names.count,
                        {{"span", span_mm, "mm"}, {names.count, counted.value, ""}},
                        by_definition});
    workings.push_back({names.size + ", wanted",
                        exact(span_mm / wanted),
                        "mm",
                        "span / " + names.count,
                        {{"span", span_mm, "mm"}, {names.count, wanted, ""}},
                        by_definition});
    const auto error_row = [&](const std::string& name, double value, double count) {
        workings.push_back({names.size + " off by" + name,
                            exact(100.0 * value),
                            "%",
                            "100 (wanted / yours - 1)",
                            {{names.count + ", wanted", wanted, ""}, {names.count + ", yours", count, ""}},
                            "more " + names.count + " than wanted are too small"});
    };
    error_row("", error.value, counted.value);
    error_row(", at the least", error.low95, wanted / (1.0 + error.low95));
    error_row(", at the most", error.high95, wanted / (1.0 + error.high95));
}

void add_trial(const HookTrial& trial, const HookRequest& request, const HookAdvice& advice,
               Workings& workings) {
    const double span_mm = request.want.span_mm;
    const Measured expected = scaled(trial.stitches_per_100mm, span_mm / span_10cm_mm);
    const HookResponse& response = advice.response;
    const std::vector<Given> inputs = {{"span", span_mm, "mm"},
                                       {"hook", trial.hook_mm, "mm"},
                                       {"middle hook", std::exp(response.mean_log_hook), "mm"},
                                       {"stitch width there", std::exp(response.mean_log_width), "mm"},
                                       {"exponent", response.exponent.value, ""}};
    workings.push_back({"stitches over " + span_name(span_mm) + " to expect", expected, "",
                        "span / (stitch width there x (hook / middle hook)^exponent); the middle is that of "
                        "this swatch and recorded ones like it",
                        inputs, response.source});
    workings.push_back(
        {"chance to land within the tolerance",
         exact(100.0 * trial.chance),
         "of 100",
         "normal distribution of ln(stitch width) between ln(1 - tolerance) and ln(1 + tolerance) around the "
         "wanted one",
         {{"hook", trial.hook_mm, "mm"},
          {"stitches to expect", expected.value, ""},
          {"their standard uncertainty", expected.std, ""},
          {"tolerance", 100.0 * advice.tolerance, "%"}},
         "spread: of the measurement, of two swatches of one maker, of the exponent"});
}

/// What the exponent was learned from.
std::vector<Given> exponent_inputs(const HookRecord& record, const UsualRange& published) {
    std::vector<Given> inputs = {{"prior", published.usual, ""},
                                 {"prior, least", published.low, ""},
                                 {"prior, most", published.high, ""}};
    const auto add = [&](const HookSeries& series, const std::string& what) {
        for (const auto& p : series) {
            inputs.push_back({"hook" + what, p.hook_mm, "mm"});
            inputs.push_back({"stitch width on it", p.stitch_width_mm.value, "mm"});
        }
    };
    add(record.this_yarn, " of a recorded swatch");
    for (const auto& series : record.this_yarn_otherwise) add(series, " of one in another state");
    if (!record.other_yarns.empty())
        inputs.push_back({"other yarns", static_cast<double>(record.other_yarns.size()), ""});
    return inputs;
}

void add_hooks(const HookRequest& request, const HookAdvice& advice, const Catalog& catalog,
               Workings& workings) {
    const auto& practice = catalog.hook_practice;
    workings.push_back({"tolerance",
                        exact(100.0 * advice.tolerance),
                        "%",
                        request.tolerance ? "as told" : "from the facts",
                        {},
                        request.tolerance ? "the maker" : practice.gauge_repeat.source});
    workings.push_back({"spread between two swatches, relative",
                        exact(100.0 * advice.response.repeat_std),
                        "%",
                        "half range / sqrt(3)",
                        {{"half range", 100.0 * practice.gauge_repeat.value, "%"}},
                        practice.gauge_repeat.source + "; evenly likely within it (JCGM 100:2008, 4.3.7)"});
    if (std::abs(advice.error.value) > practice.large_miss.value) {
        workings.push_back({"miss that is rarely the hook alone",
                            exact(100.0 * practice.large_miss.value),
                            "%",
                            "from the facts",
                            {},
                            practice.large_miss.source});
    }
    if (!request.hook_mm) {
        workings.push_back({"chance to land within the tolerance",
                            exact(100.0 * advice.chance_within_tolerance),
                            "of 100",
                            "as it is, another piece on the same hook",
                            {{"tolerance", 100.0 * advice.tolerance, "%"}},
                            "normal distribution"});
        return;
    }
    workings.push_back({"exponent of stitch width over hook", advice.response.exponent, "",
                        "weighted straight line through ln(width) over ln(hook), with a prior",
                        exponent_inputs(request.record, practice.response), advice.response.source});
    add_trial(*advice.unchanged_hook, request, advice, workings);
    if (advice.trial) add_trial(*advice.trial, request, advice, workings);
    workings.push_back({"hook that would just do",
                        exact(*advice.ideal_hook_mm),
                        "mm",
                        "hook in use x (yours / wanted)^(-1 / exponent), stitch widths",
                        {{"hook in use", *request.hook_mm, "mm"},
                         {"yours / wanted", 1.0 + advice.error.value, ""},
                         {"exponent", advice.response.exponent.value, ""}},
                        advice.response.source});
}

void add_piece(const HookRequest& request, const IfUnchanged& piece, Workings& workings) {
    const std::string source = request.piece.width_mm ? "the maker" : "the span of the pattern's gauge";
    workings.push_back(
        {"width of the pattern's piece", exact(piece.wanted_width_mm), "mm", "as told", {}, source});
    workings.push_back({"its width if nothing changed",
                        piece.width_mm,
                        "mm",
                        "width x stitch width, yours / wanted",
                        {{"width", piece.wanted_width_mm, "mm"},
                         {"stitch width, yours / wanted", piece.width_mm.value / piece.wanted_width_mm, ""}},
                        by_definition});
    workings.push_back({"stitches for that width with this hook",
                        exact(piece.stitches_for_width),
                        "",
                        "width / stitch width, yours",
                        {{"width", piece.wanted_width_mm, "mm"},
                         {"stitch width, yours", piece.wanted_width_mm / piece.stitches_for_width, "mm"}},
                        by_definition});
    if (!piece.height_mm) return;
    workings.push_back({"height of the pattern's piece",
                        exact(*piece.wanted_height_mm),
                        "mm",
                        "as told",
                        {},
                        request.piece.height_mm ? "the maker" : "the span of the pattern's gauge"});
    workings.push_back(
        {"its height if nothing changed",
         *piece.height_mm,
         "mm",
         "height x row height, yours / wanted",
         {{"height", *piece.wanted_height_mm, "mm"},
          {"row height, yours / wanted", piece.height_mm->value / *piece.wanted_height_mm, ""}},
         by_definition});
}

}  // namespace

Workings hook_workings(const MadeGauge& made, const HookRequest& request, const HookAdvice& advice,
                       const Catalog& catalog) {
    Workings workings;
    add_direction({"stitches", "stitch width"}, made.stitches_per_100mm, request.want.stitches, advice.error,
                  made, request, workings);
    if (advice.rows)
        add_direction({"rows", "row height"}, *made.rows_per_100mm, *request.want.rows, advice.rows->error,
                      made, request, workings);
    add_hooks(request, advice, catalog, workings);
    add_piece(request, advice.if_unchanged, workings);
    return workings;
}

}  // namespace ridgetally

#include "cli/gauge_options.h"

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "cli/advice_values.h"
#include "cli/values.h"

namespace ridgetally {
namespace {

/// A quantity of the contract; none where it is not there or not a positive one.
std::optional<Measured> quantity(const nlohmann::json& block, const char* key) {
    const auto at = block.find(key);
    if (at == block.end() || !at->is_object()) return std::nullopt;
    const auto number = [&](const char* name) {
        const auto field = at->find(name);
        return field != at->end() && field->is_number() ? field->get<double>() : NAN;
    };
    const double value = number("value");
    const double std = number("std");
    if (!(value > 0.0) || !(std >= 0.0) || !std::isfinite(value + std)) return std::nullopt;
    return measured(value, {{"as measured", std / value}});
}

std::optional<StitchFamily> family_of(const nlohmann::json& document) {
    const auto stitch = document.find("stitch");
    if (stitch == document.end() || !stitch->is_object()) return std::nullopt;
    const auto family = stitch->find("family");
    if (family == stitch->end() || !family->is_string()) return std::nullopt;
    return stitch_family_from(family->get<std::string>());
}

Refusal no_report(const std::string& file) {
    return {"advice", "not-a-report", file + " is no document of a measured swatch",
            "write one with ridgetally swatch --json PHOTO > FILE"};
}

/// Of the record, for a hat.
Outcome<ToldGauge> gauge_of_record(const RecordedYarnArguments& arguments, const Catalog& catalog) {
    auto found = recorded_yarn(arguments, catalog);
    if (!found) return found.refusal();
    GaugeChoice choice = found->choice;
    choice.rather = Worked::round;
    const auto chosen = choose_gauge(found->yarn, gauge_by_hook(found->measurements), choice);
    if (!chosen) return chosen.refusal();
    const HookGauge& gauge = chosen->gauge;
    ToldGauge told;
    told.gauge = {gauge.stitches_per_10cm, gauge.rows_per_10cm, chosen->source};
    told.stitch = gauge.kind.stitch;
    told.reasons = chosen->reasons;
    if (gauge.kind.worked != Worked::round) {
        told.reasons.push_back({"flat-gauge",
                                "the swatches of the record were not worked in the round, where gauge often "
                                "differs by some per cent: check the width of the crown early"});
    }
    return told;
}

}  // namespace

Outcome<ToldGauge> measured_swatch(const std::string& file) {
    std::ifstream stream(file);
    if (!stream) return Refusal{"advice", "no-input", file + " cannot be read", "check the name of the file"};
    const auto document = nlohmann::json::parse(stream, nullptr, false);
    if (!document.is_object()) return no_report(file);
    const auto swatch = document.find("swatch");
    if (swatch == document.end() || !swatch->is_object()) return no_report(file);
    const auto stitches = quantity(*swatch, "stitches_per_10cm");
    if (!stitches) return no_report(file);
    ToldGauge told;
    told.gauge = {*stitches, quantity(*swatch, "rows_per_10cm"), "measured, in " + file};
    told.stitch = family_of(document);
    told.width_mm = quantity(*swatch, "width_mm");
    told.height_mm = quantity(*swatch, "height_mm");
    if (const auto use = document.find("yarn_use"); use != document.end() && use->is_object())
        told.mass_g = quantity(*use, "mass_g");
    return told;
}

void add_gauge_options(CLI::App& command, GaugeArguments& arguments) {
    using Text = const std::string&;
    const auto add = [&command](const char* name, const char* type, const char* help, auto apply) {
        return command.add_option_function<std::string>(name, apply, help)->type_name(type)->group("Gauge");
    };
    auto* gauge = add("--gauge", "GAUGE", "Your gauge, stitches x rows, as in 14x16 or 9x9/4in",
                      [&arguments](Text text) { arguments.gauge = values::crochet_gauge(text); });
    add("--per", "10cm|4in",
        "The span the gauge is told over, where it does not say it itself (default: 10cm)",
        [&arguments](Text text) { arguments.span_mm = values::span_mm(text); })
        ->needs(gauge);
    add("--measured", "FILE", "The gauge that ridgetally swatch --json wrote into FILE",
        [&arguments](Text text) { arguments.measured_file = text; })
        ->excludes(gauge);
    add("--stitch", "FAMILY", "The stitch, in US terms: sc, sc-blo, sc-flo, hdc, hdc-blo, dc or tr",
        [&arguments](Text text) { arguments.recorded.told.stitch = values::stitch(text); });
    add_recorded_yarn_options(command, arguments.recorded);
    auto* yarn = command.get_option("--yarn");
    yarn->excludes(gauge)->excludes(command.get_option("--measured"));
    for (const char* option : {"--hook", "--worked", "--state", "--record"})
        command.get_option(option)->needs(yarn);
}

Outcome<ToldGauge> gauge_from(const GaugeArguments& arguments, const Catalog& catalog) {
    ToldGauge told;
    if (arguments.recorded.yarn) return gauge_of_record(arguments.recorded, catalog);
    if (arguments.measured_file) {
        const auto read = measured_swatch(*arguments.measured_file);
        if (!read) return read.refusal();
        told = *read;
    } else if (arguments.gauge) {
        told.gauge = made_gauge(*arguments.gauge, arguments.span_mm.value_or(span_10cm_mm));
    } else {
        return Refusal{"advice", "no-gauge", "no gauge was told",
                       "tell it with --gauge, as in 14x16, with --measured FILE, or with the --yarn of your "
                       "record"};
    }
    if (arguments.recorded.told.stitch) told.stitch = arguments.recorded.told.stitch;
    return told;
}

}  // namespace ridgetally

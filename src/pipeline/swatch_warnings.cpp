#include "pipeline/swatch_warnings.h"

#include <cmath>
#include <iomanip>
#include <optional>
#include <sstream>

namespace ridgetally {
namespace {

/// Hand work differs by some per cent between its ends; twice that is a fold, a stretch or another stitch.
constexpr double most_part_difference = 0.10;

bool differs(const PartReading& part, const Lattice& lattice) {
    return std::abs(part.stitch_pitch_px / lattice.stitch_pitch_px.value - 1.0) > most_part_difference;
}

/// What the missing of weights does to an answer.
std::vector<Warning> weights_warnings(const Knowledge& knowledge, const SwatchOptions& options) {
    if (!knowledge.recogniser.get())
        return {{"no-recogniser",
                 "the stitch recogniser's weights are missing or damaged; the plain method read the fabric "
                 "alone, so check the lines of the annotated picture"}};
    if (!options.stitch && !knowledge.recogniser.namer())
        return {
            {"no-stitch-network",
             "the weights of the network that names stitches are missing or damaged; the name is a rougher "
             "guess"}};
    return {};
}

Warning rows_doubted(const SwatchReading& reading, const SwatchOptions& options) {
    std::ostringstream text;
    text << "rows are not given: seen closely they look " << std::fixed << std::setprecision(1)
         << *reading.other_row_ratio << " times as high as "
         << (options.stitch ? "with the stitch that was told; check --stitch and --worked"
                            : "the rest of the fabric says; tell the stitch with --stitch");
    return {"rows-doubted", text.str()};
}

std::optional<Warning> rows_warning(const SwatchReading& reading, const SwatchOptions& options) {
    if (reading.other_row_ratio) return rows_doubted(reading, options);
    if (reading.lattice.rows_by_recogniser)
        return Warning{"rows-by-recogniser",
                       "the rows are faint: their height is the stitch recogniser's alone, and no row lines "
                       "are drawn to check it by; count some rows along the ruler"};
    if (reading.lattice.row_pitch_px) return std::nullopt;
    return Warning{
        "rows-not-resolved",
        "rows are not sure, so only stitches are given: tell the stitch with --stitch and --worked, or "
        "come nearer"};
}

std::vector<Warning> lattice_warnings(const SwatchReading& reading, const SwatchOptions& options) {
    const Lattice& lattice = reading.lattice;
    const FabricRegion& region = reading.source.region;
    std::vector<Warning> warnings;
    if (region.cut_by_frame && options.area_px.empty()) {
        warnings.push_back(
            {"cut-by-frame", "the photo cuts the swatch, so its size and its whole counts are not given"});
    }
    if (region.ruler_contact != RulerContact::apart && options.area_px.empty()) {
        warnings.push_back(
            {"ruler-touches",
             "ruler and fabric touch, so it may hide a part: whole counts and size are not given, and "
             "the interval allows for a ruler lying on the fabric; leave a finger's width between them"});
    }
    if (const auto rows = rows_warning(reading, options)) warnings.push_back(*rows);
    for (const auto& part : lattice.parts) {
        if (differs(part, lattice)) {
            warnings.push_back(
                {"uneven",
                 "the " + part.name +
                     " of the measured area has another gauge than the whole: lay it flat, unstretched"});
        }
    }
    return warnings;
}

void append(std::vector<Warning>& warnings, const std::vector<Warning>& more) {
    warnings.insert(warnings.end(), more.begin(), more.end());
}

}  // namespace

std::vector<Warning> swatch_warnings(const SwatchReading& reading, const Knowledge& knowledge,
                                     const SwatchOptions& options) {
    std::vector<Warning> warnings = scale_warnings(reading.plane);
    append(warnings, weights_warnings(knowledge, options));
    append(warnings, lattice_warnings(reading, options));
    return warnings;
}

}  // namespace ridgetally

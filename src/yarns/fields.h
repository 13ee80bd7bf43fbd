#pragma once

#include "yarns/measurement.h"
#include "yarns/yarn.h"

namespace ridgetally {

/// The one list of what a yarn and a measurement consist of, by the names their fields have in the file, in
/// JSON and in CSV, in the order they are written there. `visit(name, field)` is called for each; `Y` and `M`
/// are the types, const or not.
template <typename Y, typename Visit>
void visit_yarn(Y& yarn, Visit visit) {
    visit("name", yarn.name);
    visit("weight_category", yarn.weight_category);
    visit("fibre", yarn.fibre);
    visit("colour", yarn.colour);
    visit("dye_lot", yarn.dye_lot);
    visit("ball_g", yarn.ball_g);
    visit("ball_m", yarn.ball_m);
    visit("balls", yarn.balls);
    visit("band_craft", yarn.band.craft);
    visit("band_stitches", yarn.band.stitches);
    visit("band_rows", yarn.band.rows);
    visit("band_span_mm", yarn.band.span_mm);
    visit("band_tool_mm", yarn.band.tool_mm);
    visit("notes", yarn.notes);
    visit("added", yarn.added);
}

/// All but the report, which is no plain value.
template <typename M, typename Visit>
void visit_measurement(M& measurement, Visit visit) {
    visit("kind", measurement.kind);
    visit("taken", measurement.taken);
    visit("hook_mm", measurement.hook_mm);
    visit("stitch", measurement.stitch);
    visit("worked", measurement.worked);
    visit("state", measurement.state);
    visit("stitches_per_10cm", measurement.stitches_per_10cm);
    visit("stitches_std", measurement.stitches_std);
    visit("rows_per_10cm", measurement.rows_per_10cm);
    visit("rows_std", measurement.rows_std);
    visit("mass_g", measurement.mass_g);
    visit("width_mm", measurement.width_mm);
    visit("height_mm", measurement.height_mm);
    visit("diameter_mm", measurement.diameter_mm);
    visit("rounds", measurement.rounds);
    visit("last_round_stitches", measurement.last_round_stitches);
    visit("photo_file", measurement.photo_file);
    visit("photo_sha256", measurement.photo_sha256);
}

}  // namespace ridgetally

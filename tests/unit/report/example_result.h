#pragma once

#include "catalog/catalog.h"
#include "pipeline/swatch_result.h"

namespace ridgetally {

/// The facts of the source tree.
inline const Catalog& example_catalog() {
    static const Catalog catalog = load_catalog(std::string(RIDGETALLY_SOURCE_DIR) + "/models").value();
    return catalog;
}

/// An invented swatch of the practice piece "harbour mat": 18 single crochets and 20 rows over 10 cm, beside
/// a ruler that lies along the left edge of a 1200 x 900 photo.
inline SwatchResult example_swatch() {
    SwatchResult result;
    result.photo = {"harbour-mat.jpg", std::string(64, 'a'), 1200, 900};
    result.scale.reference = "ruler";
    result.scale.unit = LengthUnit::mm;
    result.scale.px_per_mm = measured(6.0, {{"ruler class", 0.002}});
    result.scale.tilt_deg = 3.25;
    result.scale.camera_distance_mm = 400.0;
    for (int mm = 0; mm <= 100; ++mm) {
        const double y = 100.0 + 6.0 * mm;
        result.scale.marks.push_back({static_cast<double>(mm), {150.0, y}, {120.0, y}});
    }
    result.stitch = {StitchFamily::sc, Worked::flat, StitchSource::told, 1.0};
    result.stitches_per_10cm = measured(18.0, {{"uneven stitches", 0.006}, {"ruler class", 0.008}});
    result.rows_per_10cm = measured(20.0, {{"uneven rows", 0.01}});
    result.overlay.outline = {{300.0, 100.0}, {1000.0, 100.0}, {1000.0, 800.0}, {300.0, 800.0}};
    for (int i = 0; i <= 12; ++i) {
        const double y = 250.0 + 30.0 * i;
        result.overlay.row_ridges.push_back({i, {{400.0, y}, {900.0, y}}});
    }
    for (int i = 0; i <= 10; ++i) {
        const double x = 450.0 + 40.0 * i;
        result.overlay.stitch_ridges.push_back({i, {{x, 432.0}, {x, 458.0}}});
    }
    result.overlay.stitches_counted = 10;
    result.overlay.rows_counted = 12;
    return result;
}

}  // namespace ridgetally

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/geometry.h"
#include "core/measured.h"
#include "lattice/lattice.h"
#include "rectify/camera_pose.h"
#include "scale/scale_reference.h"

namespace ridgetally {

struct PhotoFacts {
    std::string file;
    std::string sha256;
    int width_px = 0;  ///< upright
    int height_px = 0;
};

/// Something the maker should know although a number came out. Codes are stable and listed in the README.
struct Warning {
    std::string code;
    std::string message;
};

/// What gave the scale, and what was made of it.
struct ScaleResult {
    std::string reference;  ///< as ScaleReference::kind
    LengthUnit unit = LengthUnit::mm;
    Measured px_per_mm;
    double tilt_deg = 0.0;
    double camera_distance_mm = 0.0;
    FocalSource focal_source = FocalSource::exif;  ///< what the distance and the tilt rest on
    std::vector<ScaleMark> marks;                  ///< every mark it is sure of, sorted by position
};

/// A line to draw over the photo.
struct PhotoCurve {
    int index = 0;
    std::vector<PhotoPoint> points;
};

/// What the annotated picture shows, in photo pixels.
struct Overlay {
    std::vector<PhotoPoint> outline;        ///< of the measured fabric
    std::vector<PhotoCurve> row_ridges;     ///< boundaries between rows
    std::vector<PhotoCurve> stitch_ridges;  ///< boundaries between the stitches of the counted row
    int stitches_counted = 0;               ///< between the first and the last stitch ridge
    int rows_counted = 0;                   ///< between the first and the last row ridge
};

/// One of the other readings, as gauge.
struct RivalGauge {
    double stitches_per_10cm = 0.0;
    double rows_per_10cm = 0.0;
    double score = 0.0;  ///< relative to the chosen reading, which has 1
};

/// `ridgetally scale`: the ruler alone.
struct ScaleReport {
    PhotoFacts photo;
    ScaleResult scale;
    std::vector<Warning> warnings;
};

/// `ridgetally swatch`: everything a report needs; every report form is a pure function of this.
struct SwatchResult {
    PhotoFacts photo;
    std::vector<PhotoFacts> photos;  ///< every photo of a combined result, the first included; empty for one
    ScaleResult scale;
    StitchReading stitch;
    Measured stitches_per_10cm;
    std::optional<Measured> rows_per_10cm;
    std::optional<Measured> width_mm;   ///< along the rows; only where the whole swatch is in the frame
    std::optional<Measured> height_mm;  ///< across the rows
    std::optional<Measured> stitches;   ///< of a whole row; only where the whole swatch is in the frame
    std::optional<Measured> rows;
    std::vector<RivalGauge> rivals;
    std::vector<std::string> corrected;  ///< set by hand: "unit", "scale", "area", "rows", "reading"
    std::vector<Warning> warnings;
    Overlay overlay;
};

}  // namespace ridgetally

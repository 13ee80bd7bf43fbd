#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/measured.h"
#include "core/stitch.h"

namespace ridgetally {

/// What was measured: a swatch beside a ruler, the flat crown of a hat, or a whole piece.
enum class PieceKind { swatch, crown, piece };

/// "swatch", "crown", "piece".
[[nodiscard]] std::string_view key_of(PieceKind kind);

/// What happened to the fabric before it was measured. Fabric relaxes after it comes off the hook and changes
/// again when it is washed and dried.
enum class FabricState { off_hook, relaxed, washed };

/// "off-hook", "relaxed", "washed".
[[nodiscard]] std::string_view key_of(FabricState state);

/// One measurement of a piece made of a yarn.
struct Measurement {
    PieceKind kind = PieceKind::swatch;
    std::string taken;              ///< day, ISO 8601
    std::optional<double> hook_mm;  ///< diameter of the shaft
    std::optional<StitchFamily> stitch;
    std::optional<Worked> worked;
    std::optional<FabricState> state;
    std::optional<double> stitches_per_10cm;
    std::optional<double> stitches_std;  ///< standard uncertainty of it; told together
    std::optional<double> rows_per_10cm;
    std::optional<double> rows_std;
    std::optional<double> mass_g;  ///< of the whole piece
    std::optional<double> width_mm;
    std::optional<double> height_mm;
    std::optional<double> diameter_mm;  ///< of a crown, over its area
    std::optional<double> rounds;       ///< of a crown
    std::optional<double> last_round_stitches;
    std::string photo_file;
    std::string photo_sha256;  ///< lower-case hex; empty where there was no photo
    std::string report;        ///< the program's JSON document in compact form; empty where there is none

    bool operator==(const Measurement&) const = default;
};

/// A measurement of the record. Numbers count up and are never used twice, so that they can stand on a label.
struct StoredMeasurement {
    std::int64_t number = 0;
    Measurement measurement;
};

/// Gauge of a measurement with its uncertainty; none where it has none.
[[nodiscard]] std::optional<Measured> stitches_of(const Measurement& measurement);
[[nodiscard]] std::optional<Measured> rows_of(const Measurement& measurement);

/// Mass of the piece over its area, g/m2; none where one of them is not known. For pieces whose width times
/// height is their area.
[[nodiscard]] std::optional<double> mass_per_area_g_m2(const Measurement& measurement);

}  // namespace ridgetally

#include "yarns/measurement.h"

namespace ridgetally {
namespace {

std::optional<Measured> with_std(const std::optional<double>& value, const std::optional<double>& std) {
    if (!value || !std) return std::nullopt;
    return Measured{*value, *std, {}};
}

}  // namespace

std::string_view key_of(PieceKind kind) {
    switch (kind) {
        case PieceKind::swatch:
            return "swatch";
        case PieceKind::crown:
            return "crown";
        case PieceKind::piece:
            break;
    }
    return "piece";
}

std::string_view key_of(FabricState state) {
    switch (state) {
        case FabricState::off_hook:
            return "off-hook";
        case FabricState::relaxed:
            return "relaxed";
        case FabricState::washed:
            break;
    }
    return "washed";
}

std::optional<Measured> stitches_of(const Measurement& measurement) {
    return with_std(measurement.stitches_per_10cm, measurement.stitches_std);
}

std::optional<Measured> rows_of(const Measurement& measurement) {
    return with_std(measurement.rows_per_10cm, measurement.rows_std);
}

std::optional<double> mass_per_area_g_m2(const Measurement& measurement) {
    const auto& m = measurement;
    if (!m.mass_g || !m.width_mm || !m.height_mm) return std::nullopt;
    constexpr double mm2_per_m2 = 1e6;
    return *m.mass_g * mm2_per_m2 / (*m.width_mm * *m.height_mm);
}

}  // namespace ridgetally

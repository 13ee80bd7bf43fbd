#include "report/yarn_use.h"

#include "advice/yarn_needed.h"
#include "core/trade_units.h"
#include "report/document_parts.h"
#include "report/figures.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

Measured in_cm2(const Measured& area_mm2) { return scaled(area_mm2, 1.0 / mm2_per_cm2); }

Measured for_100_cm2(const Measured& mass_g, const Measured& area_mm2) {
    return scaled(mass_per_cm2({mass_g, area_mm2, {}}), 100.0);
}

}  // namespace

Document yarn_use_document(const Measured& mass_g, const std::optional<Measured>& area_mm2) {
    Document block;
    block["mass_g"] = measured_document(mass_g);
    if (!area_mm2) return block;
    block["area_cm2"] = measured_document(in_cm2(*area_mm2));
    block["mass_per_100cm2_g"] = measured_document(for_100_cm2(mass_g, *area_mm2));
    return block;
}

std::string yarn_use_text(const Measured& mass_g, const std::optional<Measured>& area_mm2) {
    if (!area_mm2) {
        return paragraph("Yarn: ",
                         "what this fabric takes cannot be said: the whole swatch must be in the photo.");
    }
    return paragraph("Yarn: ", with_plus_minus(for_100_cm2(mass_g, *area_mm2), 1) + " g for 100 cm2 (" +
                                   with_plus_minus(mass_g, 1) + " g in " +
                                   with_plus_minus(in_cm2(*area_mm2), 0) + " cm2).");
}

std::optional<Measured> area_of_sides(const std::optional<Measured>& width_mm,
                                      const std::optional<Measured>& height_mm) {
    if (!width_mm || !height_mm) return std::nullopt;
    return with(scaled(*width_mm, height_mm->value), {{"height", height_mm->relative_std()}});
}

}  // namespace ridgetally

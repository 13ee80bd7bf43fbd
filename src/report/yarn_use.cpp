#include "report/yarn_use.h"

#include "core/trade_units.h"
#include "report/document_parts.h"
#include "report/figures.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

Measured area_cm2(const WeighedPiece& piece) { return scaled(piece.area_mm2, 1.0 / mm2_per_cm2); }

Measured mass_per_100cm2_g(const WeighedPiece& piece) { return scaled(mass_per_cm2(piece), 100.0); }

}  // namespace

Document yarn_use_document(const Measured& mass_g, const std::optional<WeighedPiece>& piece, Why why) {
    Document block;
    block["mass_g"] = measured_document(mass_g);
    if (!piece) return block;
    block["area_cm2"] = measured_document(area_cm2(*piece));
    block["mass_per_100cm2_g"] = measured_document(mass_per_100cm2_g(*piece));
    if (why == Why::shown) block["why"] = workings_document(workings_of(*piece));
    return block;
}

std::string yarn_use_text(const Measured& mass_g, const std::optional<WeighedPiece>& piece, Why why) {
    if (!piece) {
        return paragraph("Yarn: ",
                         "what this fabric takes cannot be said: the whole swatch must be in the photo.");
    }
    const std::string text =
        paragraph("Yarn: ", with_plus_minus(mass_per_100cm2_g(*piece), 1) + " g for 100 cm2 (" +
                                with_plus_minus(mass_g, 1) + " g in " + with_plus_minus(area_cm2(*piece), 0) +
                                " cm2).");
    return why == Why::shown ? text + workings_text(workings_of(*piece)) : text;
}

}  // namespace ridgetally

#include "pipeline/confirm.h"

#include "core/units.h"
#include "pipeline/propose.h"
#include "recogniser/second_look.h"

namespace ridgetally {
namespace {

const char* word_of(SecondLook look) {
    switch (look) {
        case SecondLook::confirmed:
            return "confirms it";
        case SecondLook::other_seen:
            return "reads something else";
        case SecondLook::unseen:
            return "sees no fabric";
    }
    return "";
}

}  // namespace

std::optional<Refusal> doubt_of(const Lattice& lattice, const LatticeSearch& search,
                                const Knowledge& knowledge, const SwatchOptions& options, Trace& trace) {
    if (options.reading || options.repeat) return std::nullopt;
    const Recogniser* recogniser = knowledge.recogniser.get();
    if (!recogniser) return std::nullopt;
    const double to_search = search.patch.px_per_mm / lattice.px_per_mm;
    const ClaimedReading claim{to_search * lattice.stitch_pitch_px.value,
                               lattice.row_pitch_px ? to_search * lattice.row_pitch_px->value : 0.0,
                               lattice.row_direction_deg / degrees_per_radian};
    const SecondLook look = second_look(*recogniser, search.patch.grey, search.patch.mask, claim);
    trace.note(std::string("second look: the recogniser ") + word_of(look));
    const bool vouched_for = options.stitch && !options.area_px.empty();
    if (look == SecondLook::confirmed || (look == SecondLook::unseen && vouched_for)) return std::nullopt;
    return no_stitches();
}

}  // namespace ridgetally

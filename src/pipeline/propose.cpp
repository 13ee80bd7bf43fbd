#include "pipeline/propose.h"

#include <algorithm>
#include <sstream>
#include <utility>

#include "lattice/choose.h"
#include "recogniser/recognise.h"

namespace ridgetally {
namespace {

/// What repeats along a line only may be anything.
bool sees_rows(const Reading& reading) { return reading.row_score >= ChooseOptions{}.least_row_comb; }

/// Told stitches are read by the plain search alone where its best reading sees rows and leads by that
/// margin.
bool leads(const std::vector<Reading>& readings) {
    const Reading& best = readings.front();
    if (!sees_rows(best)) return false;
    for (const auto& rival : readings) {
        if (other_stitch(rival, best) || other_row(rival, best))
            return best.score - rival.score >= ChooseOptions{}.sure_margin;
    }
    return true;
}

RecogniseOptions recognise_options(const LatticeSearch& search) {
    RecogniseOptions options;
    const auto& told = search.options;
    if (told.row_hint == RowHint::told) options.rows = RowKnowledge::modulo_180;
    if (told.row_hint == RowHint::modulo_90) options.rows = RowKnowledge::modulo_90;
    options.row_direction_rad = told.row_direction_rad;
    options.least_stitch_px = std::max(6.0, told.least_stitch_mm * search.patch.px_per_mm);
    options.most_stitch_px = told.most_stitch_mm * search.patch.px_per_mm;
    if (told.source == StitchSource::told && told.priors.size() == 1) {
        options.told = HeightToWidthPrior{told.priors.front().height_over_width, told.priors.front().log_std};
    }
    for (std::size_t i = 0; i < std::min<std::size_t>(3, search.readings.size()); ++i) {
        options.offered_stitch_px.push_back(search.readings[i].stitch_pitch_px);
    }
    return options;
}

Refusal not_read_alone() {
    return {
        "recogniser", "no-weights",
        "the stitch recogniser's weights are missing or damaged, and without them a stitch that is not told "
        "is too often read wrongly",
        "tell the stitch with --stitch and --worked, or install the models folder again"};
}

Proposal proposal_of(const FabricReading& reading, double weight, double px_per_mm) {
    Proposal proposal;
    proposal.row_direction_rad = reading.row_direction_rad;
    proposal.stitch_pitch_mm = reading.stitch_pitch_px / px_per_mm;
    proposal.row_pitch_mm = reading.row_pitch_px / px_per_mm;
    proposal.weight = weight;
    std::copy_n(reading.family.begin(), stitch_family_count, proposal.family.begin());
    proposal.round = reading.round;
    return proposal;
}

}  // namespace

Refusal no_stitches() {
    return {
        "fabric", "no-stitches", "what was found beside the ruler does not look like crochet or knitting",
        "fill more of the frame with the swatch, in focus and lit from the side, or bound it with --area"};
}

Outcome<Proposed> propose(const Knowledge& knowledge, const LatticeSearch& search, Ask ask, Trace& trace) {
    const bool told = search.options.source == StitchSource::told;
    if (told && ask == Ask::where_unsure && leads(search.readings)) return Proposed{};
    const Recogniser* recogniser = knowledge.recogniser.get();
    if (!recogniser && !told) return not_read_alone();
    if (!recogniser) return Proposed{};
    const auto seen = recognise(*recogniser, search.patch.grey, search.patch.mask, recognise_options(search));
    if (!seen) {
        trace.note("recogniser: " + seen.refusal().message);
        // Who tells the stitch has looked at the fabric, and may know it in yarn the recogniser cannot see;
        // but somebody must see rows.
        if (!told || !sees_rows(search.readings.front())) return no_stitches();
        return Proposed{true, {}, std::nullopt};
    }
    std::vector<Proposal> proposals = {proposal_of(seen->best, seen->confidence, search.patch.px_per_mm)};
    for (const auto& rival : seen->rivals) {
        // A rival is believed as far as it comes near the best in score.
        const double share = seen->best.score > 0.0 ? rival.score / seen->best.score : 0.0;
        proposals.push_back(
            proposal_of(rival, seen->confidence * std::min(1.0, share), search.patch.px_per_mm));
    }
    for (const auto& p : proposals) {
        std::ostringstream line;
        line << "recogniser: stitch " << p.stitch_pitch_mm << " mm, row " << p.row_pitch_mm << " mm, weight "
             << p.weight;
        trace.note(line.str());
    }
    return Proposed{true, std::move(proposals), seen->last_look};
}

}  // namespace ridgetally

#include "lattice/choose.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "lattice/ambiguous.h"

namespace ridgetally {
namespace {

constexpr double proposal_weight =
    0.5;  // a sure proposal outweighs the plain margins between x1 and x2 readings; not swept
constexpr double proposal_log_std = 0.08;  // agreement of a proposal's pitches with a plain reading's
constexpr double family_floor = 0.01;      // no family is impossible

/// Logarithms of a reading's pitches over a proposal's.
struct PitchRatios {
    double stitch_log = 0.0;
    double row_log = 0.0;
};

PitchRatios ratios_of(const Reading& reading, const Proposal& proposal, double px_per_mm) {
    return {std::log(reading.stitch_pitch_px / px_per_mm / proposal.stitch_pitch_mm),
            std::log(reading.row_pitch_px() / px_per_mm / proposal.row_pitch_mm)};
}

double agreement(const Reading& reading, const Proposal& proposal, double px_per_mm) {
    const PitchRatios ratios = ratios_of(reading, proposal, px_per_mm);
    const double stitch = ratios.stitch_log / proposal_log_std;
    const double row = ratios.row_log / proposal_log_std;
    const double turn = std::sin(reading.row_direction_rad - proposal.row_direction_rad) / 0.35;
    return std::exp(-0.5 * (stitch * stitch + row * row + turn * turn));
}

/// Whether a proposal means the reading: a proposal's chance is that of pitches within this ratio.
bool means(const Proposal& proposal, const Reading& reading, double px_per_mm) {
    constexpr double same_pitch_log = 0.14;  // 15 %
    const PitchRatios ratios = ratios_of(reading, proposal, px_per_mm);
    return std::abs(ratios.stitch_log) <= same_pitch_log && std::abs(ratios.row_log) <= same_pitch_log;
}

/// Weight and kind of the proposals that agree with a reading.
struct Support {
    double weight = 0.0;  ///< the less, the less exactly they agree
    const Proposal* strongest = nullptr;
    double chance = 0.0;  ///< that the reading's pitches are neither multiples nor fractions of the true ones
};

Support support_of(const Reading& reading, const std::vector<Proposal>& proposals, double px_per_mm) {
    Support support;
    for (const auto& proposal : proposals) {
        const double weight = proposal.weight * agreement(reading, proposal, px_per_mm);
        if (weight <= support.weight) continue;
        support = {weight, &proposal, means(proposal, reading, px_per_mm) ? proposal.weight : 0.0};
    }
    return support;
}

/// Whether the proposal of most weight says something else than the reading so supported, and says it with
/// more weight than any that agrees.
bool contradicted(const Support& support, const std::vector<Proposal>& proposals) {
    const Proposal* most = strongest_of(proposals);
    return most != nullptr && most->weight > support.weight && support.strongest != most;
}

/// A proposal of much weight that says that a stitch is of another width; null where there is none.
const Proposal* other_stitch_proposed(const Reading& reading, const std::vector<Proposal>& proposals,
                                      double px_per_mm, double least_weight) {
    const auto other = std::find_if(proposals.begin(), proposals.end(), [&](const Proposal& proposal) {
        return proposal.weight >= least_weight &&
               std::abs(ratios_of(reading, proposal, px_per_mm).stitch_log) > 2.0 * proposal_log_std;
    });
    return other == proposals.end() ? nullptr : &*other;
}

/// Family by the proposal's probabilities and the published height over width.
StitchReading recognised(const Reading& reading, const Support& support,
                         const std::vector<FamilyPrior>& priors) {
    StitchReading result;
    result.source = StitchSource::recognised;
    result.confidence = 0.0;
    double sum = 0.0;
    for (const auto& prior : priors) {
        const double off =
            std::log(reading.row_pitch_px() / reading.stitch_pitch_px / prior.height_over_width) /
            prior.log_std;
        const double seen =
            support.strongest ? support.strongest->family.at(static_cast<std::size_t>(prior.family)) : 1.0;
        const double likely = (seen + family_floor) * std::exp(-0.5 * off * off) / prior.log_std;
        sum += likely;
        if (likely > result.confidence) {
            result.confidence = likely;
            result.family = prior.family;
        }
    }
    result.confidence = sum > 0.0 ? result.confidence / sum : 0.0;
    result.any_loop_confidence = result.confidence;
    if (result.confidence < 0.5) result.family.reset();
    if (support.strongest) result.worked = support.strongest->round > 0.5 ? Worked::round : Worked::flat;
    return result;
}

/// Plain score by which a reading beats the best one with another stitch, and the best one with other rows.
struct PlainMargins {
    double stitch = 0.0;
    double row = 0.0;
};

PlainMargins plain_margins(const Reading& chosen, const std::vector<Reading>& plain) {
    double own = -1e9;
    double stitch = -1e9;
    double row = -1e9;
    for (const auto& reading : plain) {
        double& best = other_stitch(reading, chosen) ? stitch : other_row(reading, chosen) ? row : own;
        best = std::max(best, reading.score);
    }
    return {own - stitch, own - row};
}

Refusal no_such_reading(std::size_t rivals) {
    return {"lattice", "no-such-reading",
            "there is no rival reading of that number; there are " + std::to_string(rivals),
            "give the number of a rival in the answer without --reading, from 1"};
}

/// The rival that the maker accepted, rows included; what would have been chosen leads the other rivals.
Outcome<Choice> accepted(Choice choice, const std::vector<Proposal>& proposals,
                         const std::vector<FamilyPrior>& priors, double px_per_mm,
                         const ChooseOptions& options) {
    const auto number = static_cast<std::size_t>(options.accepted_rival);
    if (number > choice.rivals.size()) return no_such_reading(choice.rivals.size());
    const auto rival = choice.rivals.begin() + options.accepted_rival - 1;
    std::swap(choice.reading, *rival);
    std::rotate(choice.rivals.begin(), rival, rival + 1);
    choice.stitch_margin = choice.row_margin = 0.0;
    choice.rows_resolved = true;
    choice.stitch =
        options.source == StitchSource::told
            ? StitchReading{choice.reading.family, std::nullopt, StitchSource::told, 1.0}
            : recognised(choice.reading, support_of(choice.reading, proposals, px_per_mm), priors);
    return choice;
}

}  // namespace

Outcome<Choice> choose_reading(std::vector<Reading> readings, const std::vector<Proposal>& proposals,
                               const std::vector<FamilyPrior>& priors, double px_per_mm,
                               const ChooseOptions& options) {
    if (readings.empty()) throw std::invalid_argument("choose_reading: no readings");
    const std::vector<Reading> plain = readings;
    for (auto& reading : readings)
        reading.score += proposal_weight * support_of(reading, proposals, px_per_mm).weight;
    std::stable_sort(readings.begin(), readings.end(),
                     [](const auto& a, const auto& b) { return a.score > b.score; });

    Choice choice;
    choice.reading = readings.front();
    choice.stitch_margin = choice.row_margin = choice.reading.score;
    for (const auto& rival : readings) {
        const bool stitch = other_stitch(rival, choice.reading);
        const bool row = other_row(rival, choice.reading);
        if (!stitch && !row) continue;
        double& margin = stitch ? choice.stitch_margin : choice.row_margin;
        margin = std::min(margin, choice.reading.score - rival.score);
        if (choice.rivals.size() < 3) choice.rivals.push_back(rival);
    }
    if (options.accepted_rival > 0) return accepted(std::move(choice), proposals, priors, px_per_mm, options);
    if (choice.stitch_margin < options.least_margin && !choice.rivals.empty())
        return ambiguous({choice.reading, choice.rivals}, px_per_mm, options);
    const Support support = support_of(choice.reading, proposals, px_per_mm);
    const PlainMargins margins = plain_margins(choice.reading, plain);
    const double needed =
        support.weight < options.faint_proposal ? options.sure_margin_alone : options.sure_margin;
    const bool unsure = options.source == StitchSource::recognised && !choice.rivals.empty() &&
                        support.weight < options.likely_proposal &&
                        std::min(margins.stitch, choice.stitch_margin) < needed;
    const Proposal* against =
        other_stitch_proposed(choice.reading, proposals, px_per_mm, options.contradicting_proposal);
    if (unsure || against) return ambiguous({choice.reading, choice.rivals, against}, px_per_mm, options);
    const bool rows_plain = choice.reading.row_score >= options.least_row_comb;
    const bool rows_seen = (rows_plain || support.chance >= options.sure_proposal_alone) &&
                           choice.row_margin >= options.least_margin;
    if (!rows_plain && rows_seen) choice.proposed_row_mm = support.strongest->row_pitch_mm;
    if (options.source == StitchSource::told) {
        choice.rows_resolved = rows_seen;
        choice.stitch = {choice.reading.family, std::nullopt, StitchSource::told, 1.0};
    } else {
        // One row or two a period looks alike to the plain search where no family rules one of them out.
        const bool both_agree = rows_plain && support.weight >= options.likely_rows &&
                                choice.row_margin >= options.clear_row_margin;
        choice.rows_resolved =
            rows_seen && !contradicted(support, proposals) &&
            (support.chance >= options.sure_proposal || margins.row >= options.least_margin || both_agree);
        choice.stitch = recognised(choice.reading, support, priors);
    }
    return choice;
}

}  // namespace ridgetally

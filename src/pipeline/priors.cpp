#include "pipeline/priors.h"

#include <cmath>

namespace ridgetally {
namespace {

/// Makers differ by more than printed gauges do, since designers print what they want made: same yarn, same
/// hook and the same stitch still differ by some ten per cent in height over width between makers (published
/// range of sc: 0.80 to 1.00 about 0.89, back-loop sc 0.91 to 1.08).
constexpr double maker_log_std = 0.10;

/// A family without a single published gauge is known from memory only: twice as wide.
constexpr double unpublished_factor = 2.0;

/// How plainly rows show as continuous lines (-1: columns do). Through one loop only, the other lies as a
/// ridge all along the row; tall stitches stand under a chain of top loops; knitted columns run on from row
/// to row. The sizes were chosen on development pictures, not swept.
double row_lines_of(StitchFamily family) {
    switch (family) {
        case StitchFamily::sc_blo:
        case StitchFamily::sc_flo:
        case StitchFamily::hdc_blo:
            return 1.0;
        case StitchFamily::hdc:
        case StitchFamily::dc:
        case StitchFamily::tr:
            return 0.5;
        case StitchFamily::sc:
            return 0.25;
        case StitchFamily::stockinette:
            return -0.25;
    }
    return 0.0;
}

FamilyPrior prior_of(const StitchFacts& facts, std::optional<Worked> worked) {
    FamilyPrior prior;
    prior.family = facts.family;
    prior.height_over_width = facts.height_to_width.mean;
    prior.log_std = std::hypot(maker_log_std, facts.height_to_width.std / facts.height_to_width.mean);
    if (facts.height_to_width.count == 0) prior.log_std *= unpublished_factor;
    prior.row_lines = row_lines_of(facts.family);
    prior.rows_per_period = {1};
    // Turned work may still show one face only where the light hides the difference.
    if (worked.value_or(Worked::flat) == Worked::flat && facts.repeat_rows_flat > 1)
        prior.rows_per_period.push_back(facts.repeat_rows_flat);
    return prior;
}

}  // namespace

std::vector<FamilyPrior> priors_for(const Catalog& catalog, std::optional<StitchFamily> told,
                                    std::optional<Worked> worked) {
    std::vector<FamilyPrior> priors;
    for (const auto& facts : catalog.stitches) {
        if (!told || *told == facts.family) priors.push_back(prior_of(facts, worked));
    }
    return priors;
}

}  // namespace ridgetally

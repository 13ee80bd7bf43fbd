#pragma once

#include <optional>
#include <vector>

#include "advice/crown_rounds.h"
#include "advice/derivation.h"
#include "advice/hat_shape.h"
#include "advice/maker_gauge.h"
#include "catalog/catalog.h"
#include "core/outcome.h"

namespace ridgetally {

/// What a hat is to be made of and like.
struct HatRequest {
    MadeGauge gauge;
    std::vector<Reason> gauge_reasons;   ///< what to know of it, handed on with the plan
    std::optional<StitchFamily> stitch;  ///< none: told by the shape of the gauge
    HatWish wish;
    int multiple = 1;                     ///< of stitches the body's pattern needs: 2 for an even number, ...
    std::optional<int> added_each_round;  ///< none: as many as lie flat at this gauge
    double brim_mm = 0.0;                 ///< last rounds of the height that are worked as brim
};

/// The gauge a plan works with.
struct HatGauge {
    StitchFamily stitch = StitchFamily::sc;
    Measured stitch_width_mm;
    Measured row_height_mm;
    Measured flat_increase;  ///< stitches a flat disc adds each round
    std::string source;      ///< of the gauge
    std::vector<Reason> reasons;
    Workings workings;
};

/// A hat, round by round.
struct HatPlan {
    HatShape shape;
    int stitches = 0;           ///< of the body
    Measured circumference_mm;  ///< that these stitches give
    double ease = 0.0;          ///< that they give
    double added_each_round =
        0.0;  ///< on the average; as many as lie flat, so that whole rounds reach the body
    std::vector<CrownRound> crown;
    int body_rounds = 0;     ///< without increases, brim included, turn-up not
    int brim_rounds = 0;     ///< the last of the body rounds
    int turn_up_rounds = 0;  ///< besides the body rounds
    Measured height_mm;      ///< that crown and body rounds give
    std::vector<Reason> reasons;
    Workings workings;
};

/// Stitch and row of the gauge. Where rows are not told, they are taken from the published height:width of
/// the stitch. Refusal: stage "advice", code "no-rows" where neither rows nor stitch are told, and "no-plan"
/// for knitting.
[[nodiscard]] Outcome<HatGauge> hat_gauge(const HatRequest& request, const Catalog& catalog);

/// The plan for one head. Refusal: stage "advice", code "hat-too-low" where the height leaves no side below
/// the crown, and "no-plan" where the gauge makes no hat of that head.
[[nodiscard]] Outcome<HatPlan> plan_hat(const Head& head, const HatRequest& request, const HatGauge& gauge,
                                        const Catalog& catalog);

/// The reverse question: which head a number of stitches fits.
struct HeadForStitches {
    int stitches = 0;
    Measured circumference_mm;  ///< of the hat
    Measured crown_diameter_mm;
    double head_mm = 0.0;       ///< at the usual ease, or the one told
    double head_low_mm = 0.0;   ///< at the loosest published ease
    double head_high_mm = 0.0;  ///< at the tightest
    HeadAmongPeople people;     ///< with that head
    Workings workings;
};
[[nodiscard]] HeadForStitches head_for(int stitches, const HatRequest& request, const HatGauge& gauge,
                                       const Catalog& catalog);

}  // namespace ridgetally

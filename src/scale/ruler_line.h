#pragma once

#include <optional>
#include <string>
#include <vector>

#include "scale/graduation.h"
#include "scale/index_model.h"
#include "scale/mark_measure.h"
#include "scale/strip.h"

namespace ridgetally {

/// One row of evenly spaced marks, measured and weighed but not yet given a unit.
struct RulerLine {
    StripFrame frame;
    Polarity polarity = Polarity::dark_on_light;
    std::vector<MeasuredMark> marks;  ///< sorted by index; outliers are out
    IndexModel model;                 ///< u of a mark by index
    Polynomial foot_w;                ///< where the marks' feet lie, w by u
    bool tips_at_greater_w = true;    ///< the long marks reach towards greater w
    double pitch_px = 0.0;            ///< median spacing
    double residual_px = 0.0;         ///< rms of the marks against a smooth row
    double lean_px = 0.0;             ///< scatter of the marks' lean, tip against foot
    double contrast_scatter = 0.0;    ///< of neighbouring marks' contrast, log ratio
    double found_share = 0.0;         ///< marks found among the indices they span
    GraduationEvidence evidence;

    /// From the feet's common line to the mark's tip: a rule's marks stand on one line, and where a bright
    /// bevel lies under it, single feet are seen on either side of the bevel.
    [[nodiscard]] double length_in_pitches(const MeasuredMark& mark) const;
};

/// Either a line or why the chain is none.
struct LineTrial {
    std::optional<RulerLine> line;
    std::string rejected;
};

/// Follows a chain of comb cells at full resolution, both ways as far as marks are seen. Dark and light marks
/// are tried, and a wider band where the row shows no divisions; all that is left away once a row of the
/// photo has been read: `like` is that row's polarity, and a further one, be it the rule's other edge, can
/// only add to it.
[[nodiscard]] LineTrial read_line(const GreyPyramid& pyramid, const CombChain& chain,
                                  std::optional<Polarity> like = std::nullopt);

}  // namespace ridgetally

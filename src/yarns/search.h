#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "yarns/gauge_by_hook.h"
#include "yarns/record.h"
#include "yarns/yarn.h"

namespace ridgetally {

/// So much fabric, to be made of the yarn.
struct FabricArea {
    double cm2 = 0.0;
};

/// How much yarn the piece takes: told as yarn, or as fabric.
using Need = std::variant<Amount, FabricArea>;

/// Which yarns are looked at.
enum class StockChoice { present, all };

/// "Which yarn gives this gauge?"
struct GaugeWanted {
    double stitches_per_10cm = 0.0;
    std::optional<double> rows_per_10cm;
    double tolerance =
        0.05;  ///< relative; of the size of the finished piece (5 %: common practice, no source)
    std::optional<StitchFamily> stitch;
    std::optional<Worked> worked;
    std::optional<FabricState> state;
    StockChoice stock = StockChoice::present;
    std::optional<Need> need;
    std::size_t most = 20;  ///< matches; what a screen holds
};

/// How far the record says that a yarn gives the gauge wanted, rows included where both are known.
enum class Fit {
    sure,     ///< the whole 95 % interval lies within the tolerance
    likely,   ///< the value lies within it
    possible  ///< only a part of the interval does
};

/// Whether what is left is as much as the piece takes.
enum class Sufficiency { not_asked, unknown, no, yes };

/// One answer: this yarn on this hook.
struct Match {
    Yarn yarn;
    HookGauge gauge;
    Fit fit = Fit::possible;
    double size_error = 0.0;  ///< larger of the relative errors of width and height of a piece, without sign
    Sufficiency enough = Sufficiency::not_asked;
    std::optional<double> balls_needed;
};

/// The best matches, the better fit first, then the smaller size error, then the name. Swatches of one kind
/// that differ by more than 15 % from the gauge wanted, beyond the tolerance, do not make a match by
/// themselves.
[[nodiscard]] Outcome<std::vector<Match>> find_gauge(const Record& record, const GaugeWanted& wanted);

/// How the gauge fits; none where it does not. Size error of a piece of so many stitches: wanted over
/// measured gauge, less one.
struct FitOfGauge {
    Fit fit = Fit::possible;
    double size_error = 0.0;
};
[[nodiscard]] std::optional<FitOfGauge> fit_of(const HookGauge& gauge, const GaugeWanted& wanted);

/// Balls that the piece takes; none where what is on a ball, or the mass of the fabric, is not known.
[[nodiscard]] std::optional<double> balls_for(const Need& need, const Yarn& yarn, const HookGauge& gauge);

}  // namespace ridgetally

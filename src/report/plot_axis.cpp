#include "report/plot_axis.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace ridgetally {
namespace {

/// The least step of 1, 2 or 5 times a power of ten that is not below `least`.
double round_step(double least) {
    const double power = std::pow(10.0, std::floor(std::log10(least)));
    for (const double factor : {1.0, 2.0, 5.0}) {
        if (factor * power >= least * (1.0 - 1e-9)) return factor * power;
    }
    return 10.0 * power;
}

}  // namespace

PlotAxis plot_axis(const std::vector<double>& values, int most_marks) {
    if (values.empty()) throw std::invalid_argument("an axis needs values");
    const auto [least, most] = std::minmax_element(values.begin(), values.end());
    // One value alone gets some room about it.
    const double span = std::max(*most - *least, 0.1 * std::abs(*most));
    const double step = round_step(span / std::max(most_marks - 2, 1));
    const double first = std::floor(*least / step + 1e-9);
    const double last = std::max(std::ceil(*most / step - 1e-9), first + 1.0);
    PlotAxis axis{first * step, last * step, {}};
    for (double i = first; i <= last; ++i) axis.marks.push_back(i * step);
    return axis;
}

}  // namespace ridgetally

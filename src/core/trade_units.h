#pragma once

#include "core/units.h"

/// Mass and yarn length in the units of the trade. Exact by definition (international yard and pound of 1959;
/// NIST Handbook 44, Appendix C).
namespace ridgetally {

inline constexpr double mm_per_foot = 12.0 * mm_per_inch;
inline constexpr double mm_per_yard = 3.0 * mm_per_foot;
inline constexpr double g_per_pound = 453.59237;
inline constexpr double g_per_ounce = g_per_pound / 16.0;
inline constexpr double mm_per_m = 1000.0;
inline constexpr double mm2_per_cm2 = 100.0;
inline constexpr double mm2_per_square_inch = mm_per_inch * mm_per_inch;

}  // namespace ridgetally

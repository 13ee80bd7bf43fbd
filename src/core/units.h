#pragma once

/// Lengths and counts in the units of the trade. Exact by definition; nothing here is measured.
namespace ridgetally {

/// One inch, exactly (NIST Handbook 44, Appendix C; the international inch of 1959).
inline constexpr double mm_per_inch = 25.4;

/// The two spans the trade counts over. They differ by 1.6 % and are never mixed.
inline constexpr double span_10cm_mm = 100.0;
inline constexpr double span_4in_mm = 4.0 * mm_per_inch;

inline constexpr double degrees_per_radian = 57.295779513082320876798154814105;

}  // namespace ridgetally

#include "catalog/facts.h"

#include <cmath>
#include <stdexcept>

namespace ridgetally {

double Limits::std() const { return (high - low) / std::sqrt(12.0); }

double tolerance_between_marks_mm(const RuleClass& rule, double length_mm) {
    if (!(length_mm > 0.0)) throw std::invalid_argument("a length must be above zero");
    // 1e-9: a length of exactly whole steps must not be pushed over by rounding.
    return rule.a_mm + rule.b_mm * std::ceil(length_mm / (1000.0 * rule.step_m) - 1e-9);
}

double tolerance_from_end_mm(const RuleClass& rule, double length_mm) {
    return tolerance_between_marks_mm(rule, length_mm) + rule.c_mm;
}

double relative_std_between_marks(const RuleClass& rule, double length_mm) {
    return tolerance_between_marks_mm(rule, length_mm) / (std::sqrt(3.0) * length_mm);
}

}  // namespace ridgetally

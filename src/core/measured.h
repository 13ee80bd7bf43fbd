#pragma once

#include <string>
#include <vector>

namespace ridgetally {

/// Coverage factor of a 95 % interval of a normal distribution (JCGM 100:2008, GUM, table G.1).
inline constexpr double coverage_factor_95 = 1.96;

/// One named part of an uncertainty budget: a standard uncertainty relative to the value it belongs to.
struct Contribution {
    std::string name;
    double relative_std = 0.0;
};

/// A measured quantity: value, combined standard uncertainty and the named parts it is made of
/// (JCGM 100:2008, clause 5.1.2: independent parts add in quadrature).
struct Measured {
    double value = 0.0;
    double std = 0.0;
    std::vector<Contribution> contributions;

    [[nodiscard]] double low95() const { return value - coverage_factor_95 * std; }
    [[nodiscard]] double high95() const { return value + coverage_factor_95 * std; }
    [[nodiscard]] double relative_std() const;
};

/// A value with its budget; the standard uncertainty is the root sum of squares of the parts times |value|.
[[nodiscard]] Measured measured(double value, std::vector<Contribution> contributions);

/// A value known exactly, or counted.
[[nodiscard]] Measured exact(double value);

/// `factor * x` for a factor without uncertainty.
[[nodiscard]] Measured scaled(const Measured& x, double factor);

/// `numerator / x` for a numerator without uncertainty; relative parts stay as they are (first order).
/// Throws std::domain_error when x.value is zero.
[[nodiscard]] Measured reciprocal(double numerator, const Measured& x);

/// x with further independent relative parts; parts of the same name are combined in quadrature.
[[nodiscard]] Measured with(const Measured& x, const std::vector<Contribution>& more);

/// Weighted mean of measurements of one quantity (weights 1/std^2). Parts named in `shared` are one error in
/// all of them (the same ruler, the same fabric), which no repetition makes smaller: each stays at its
/// weighted root mean square (JCGM 100:2008, clause 5.2.2 with a correlation of 1). The rest is independent
/// and shrinks, with the spread between the measurements taken in where it is larger than stated (Birge
/// ratio; R. T. Birge, Phys. Rev. 40, 1932). Throws std::invalid_argument for an empty list or a std of zero.
[[nodiscard]] Measured weighted_mean(const std::vector<Measured>& parts,
                                     const std::vector<std::string>& shared = {});

/// Birge ratio of the measurements: sqrt(chi^2 / (n - 1)) over what is independent in them; about 1 where
/// they agree. 1 for fewer than two.
[[nodiscard]] double birge_ratio(const std::vector<Measured>& parts,
                                 const std::vector<std::string>& shared = {});

}  // namespace ridgetally

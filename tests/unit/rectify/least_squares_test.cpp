#include "rectify/least_squares.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "core/random.h"

namespace ridgetally {
namespace {

// NIST Statistical Reference Datasets, nonlinear regression, Misra1a (lower difficulty): y = b1 (1 - exp(-b2
// x)). Certified: b1 = 2.3894212918E+02, b2 = 5.5015643181E-04, standard deviations 2.7070075241E+00 and
// 7.2668688436E-06, residual standard deviation 1.0187876330E-01; start values 500 and 0.0001.
constexpr std::array<std::array<double, 2>, 14> misra1a = {{{10.07, 77.6},
                                                            {14.73, 114.9},
                                                            {17.94, 141.1},
                                                            {23.93, 190.8},
                                                            {29.61, 239.9},
                                                            {35.18, 289.0},
                                                            {40.02, 332.8},
                                                            {44.82, 378.4},
                                                            {50.76, 434.8},
                                                            {55.05, 477.3},
                                                            {61.01, 536.8},
                                                            {66.40, 593.1},
                                                            {75.47, 689.1},
                                                            {81.78, 760.0}}};

TEST(LeastSquares, AgreesWithNistMisra1a) {
    const auto model = [](const std::vector<double>& b) {
        Residuals r;
        for (const auto& [y, x] : misra1a) r.values.push_back(y - b[0] * (1.0 - std::exp(-b[1] * x)));
        r.robust_count = r.values.size();
        return r;
    };
    LeastSquaresOptions options;
    options.loss = Loss::plain;
    options.most_steps = 500;
    options.smallest_progress = 1e-14;
    const auto fit = fit_least_squares(model, {500.0, 0.0001}, {1e-3, 1e-9}, options);
    ASSERT_TRUE(fit.settled);
    EXPECT_NEAR(fit.parameters[0] / 2.3894212918E+02, 1.0, 1e-6);
    EXPECT_NEAR(fit.parameters[1] / 5.5015643181E-04, 1.0, 1e-6);
    const double residual_std = std::sqrt(2.0 * fit.cost / 12.0);
    EXPECT_NEAR(residual_std / 1.0187876330E-01, 1.0, 1e-6);
    EXPECT_NEAR(std::sqrt(fit.covariance(0, 0)) * residual_std / 2.7070075241E+00, 1.0, 1e-4);
    EXPECT_NEAR(std::sqrt(fit.covariance(1, 1)) * residual_std / 7.2668688436E-06, 1.0, 1e-4);
}

/// A straight line 3 + 2 x with a fifth of the points far off.
Residuals line_with_outliers(const std::vector<double>& p) {
    Random random(4);
    Residuals r;
    for (int i = 0; i < 100; ++i) {
        const double x = i / 100.0;
        const double stray = i % 5 == 0 ? 40.0 : 0.0;
        r.values.push_back(3.0 + 2.0 * x + random.normal(0.0, 1.0) + stray - p[0] - p[1] * x);
    }
    r.robust_count = r.values.size();
    return r;
}

TEST(LeastSquares, BiweightIgnoresOutliersThatPlainDoesNot) {
    LeastSquaresOptions options;
    options.loss = Loss::plain;
    const auto plain = fit_least_squares(line_with_outliers, {0.0, 0.0}, {1e-5, 1e-5}, options);
    options.loss = Loss::huber;
    const auto start = fit_least_squares(line_with_outliers, {0.0, 0.0}, {1e-5, 1e-5}, options);
    options.loss = Loss::biweight;
    const auto fit = fit_least_squares(line_with_outliers, start.parameters, {1e-5, 1e-5}, options);
    EXPECT_NEAR(fit.parameters[0], 3.0, 3.0 * std::sqrt(fit.covariance(0, 0)));
    EXPECT_NEAR(fit.parameters[1], 2.0, 3.0 * std::sqrt(fit.covariance(1, 1)));
    EXPECT_EQ(fit.weights[0], 0.0);
    EXPECT_GT(plain.parameters[0], 6.0);
}

TEST(LeastSquares, PriorsAreNotPlayedDown) {
    const auto model = [](const std::vector<double>& p) {
        return Residuals{{p[0] - 100.0, (p[0] - 0.0) / 0.01}, 1};
    };
    LeastSquaresOptions options;
    options.loss = Loss::biweight;
    EXPECT_NEAR(fit_least_squares(model, {0.0}, {1e-5}, options).parameters[0], 0.0, 0.1);
}

TEST(LeastSquares, MisuseAndUndeterminedParametersAreTold) {
    const auto model = [](const std::vector<double>& p) { return Residuals{{p[0] - 1.0}, 1}; };
    EXPECT_THROW((void)fit_least_squares(model, {0.0, 0.0}, {1e-5}), std::invalid_argument);
    EXPECT_FALSE(fit_least_squares(model, {0.0, 0.0}, {1e-5, 1e-5}).settled);
}

}  // namespace
}  // namespace ridgetally

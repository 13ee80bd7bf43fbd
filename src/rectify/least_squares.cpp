#include "rectify/least_squares.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

namespace ridgetally {
namespace {

constexpr double huber_constant = 1.345;
constexpr double biweight_constant = 4.685;

struct LossValue {
    double cost = 0.0;
    double weight = 1.0;
};

LossValue loss_of(double r, Loss loss) {
    const double size = std::abs(r);
    if (loss == Loss::huber && size > huber_constant)
        return {huber_constant * (size - 0.5 * huber_constant), huber_constant / size};
    if (loss == Loss::biweight) {
        const double sixth = biweight_constant * biweight_constant / 6.0;
        if (size >= biweight_constant) return {sixth, 0.0};
        const double rest = 1.0 - (size / biweight_constant) * (size / biweight_constant);
        return {sixth * (1.0 - rest * rest * rest), rest * rest};
    }
    return {0.5 * r * r, 1.0};
}

struct Weighted {
    Residuals residuals;
    std::vector<double> weights;
    double cost = 0.0;
};

Weighted weighted(Residuals residuals, Loss loss) {
    Weighted result;
    result.weights.reserve(residuals.values.size());
    for (std::size_t i = 0; i < residuals.values.size(); ++i) {
        const auto value = loss_of(residuals.values[i], i < residuals.robust_count ? loss : Loss::plain);
        result.weights.push_back(value.weight);
        result.cost += value.cost;
    }
    result.residuals = std::move(residuals);
    return result;
}

using Model = std::function<Residuals(const std::vector<double>&)>;

cv::Mat_<double> jacobian(const Model& model, const std::vector<double>& at, const std::vector<double>& steps,
                          std::size_t rows) {
    cv::Mat_<double> result(static_cast<int>(rows), static_cast<int>(at.size()));
    for (std::size_t j = 0; j < at.size(); ++j) {
        auto before = at;
        auto after = at;
        before[j] -= steps[j];
        after[j] += steps[j];
        const auto low = model(before).values;
        const auto high = model(after).values;
        for (std::size_t i = 0; i < rows; ++i)
            result(static_cast<int>(i), static_cast<int>(j)) = (high[i] - low[i]) / (2.0 * steps[j]);
    }
    return result;
}

struct Normal {
    cv::Mat_<double> matrix;
    cv::Mat_<double> gradient;
};

Normal normal_equations(const cv::Mat_<double>& j, const Weighted& state) {
    Normal n{cv::Mat_<double>::zeros(j.cols, j.cols), cv::Mat_<double>::zeros(j.cols, 1)};
    for (int i = 0; i < j.rows; ++i) {
        const double w = state.weights[static_cast<std::size_t>(i)];
        if (w == 0.0) continue;
        const double r = state.residuals.values[static_cast<std::size_t>(i)];
        for (int a = 0; a < j.cols; ++a) {
            n.gradient(a, 0) += w * j(i, a) * r;
            for (int b = 0; b <= a; ++b) n.matrix(a, b) += w * j(i, a) * j(i, b);
        }
    }
    cv::completeSymm(n.matrix, true);
    return n;
}

/// A damped step that did not raise the cost, and how much of the fall the quadratic model promised came
/// true.
struct Step {
    std::vector<double> parameters;
    Weighted state;
    double fall = 0.0;
    double gain = 0.0;
};

std::optional<Step> damped_step(const Model& model, const std::vector<double>& from, const Weighted& state,
                                const Normal& normal, double damping, Loss loss) {
    cv::Mat_<double> damped = normal.matrix.clone();
    for (int a = 0; a < damped.rows; ++a) damped(a, a) *= 1.0 + damping;
    cv::Mat_<double> move;
    if (!cv::solve(damped, -normal.gradient, move, cv::DECOMP_CHOLESKY)) return std::nullopt;
    Step step{from, {}, 0.0, 0.0};
    for (std::size_t a = 0; a < from.size(); ++a) step.parameters[a] += move(static_cast<int>(a), 0);
    step.state = weighted(model(step.parameters), loss);
    step.fall = state.cost - step.state.cost;
    if (!std::isfinite(step.state.cost) || step.fall < 0.0) return std::nullopt;
    const double promised = -normal.gradient.dot(move) - 0.5 * move.dot(normal.matrix * move);
    step.gain = promised > 0.0 ? step.fall / promised : 1.0;
    return step;
}

}  // namespace

LeastSquaresFit fit_least_squares(const Model& model, std::vector<double> start,
                                  const std::vector<double>& steps, const LeastSquaresOptions& options) {
    if (steps.size() != start.size()) throw std::invalid_argument("one step size a parameter");
    constexpr double most_damping = 1e12;
    LeastSquaresFit fit;
    Weighted state = weighted(model(start), options.loss);
    const std::size_t rows = state.residuals.values.size();
    double damping = 1e-3;
    for (int i = 0; i < options.most_steps && !fit.settled; ++i) {
        const Normal normal = normal_equations(jacobian(model, start, steps, rows), state);
        auto step = damped_step(model, start, state, normal, damping, options.loss);
        while (!step && damping < most_damping) {
            damping *= 10.0;
            step = damped_step(model, start, state, normal, damping, options.loss);
        }
        if (!step) {  // not even the shortest step falls: the bottom, to rounding
            fit.settled = std::isfinite(state.cost);
            break;
        }
        fit.settled = step->fall <= options.smallest_progress;
        if (step->gain > 0.75) damping = std::max(damping * 0.1, 1e-12);
        if (step->gain < 0.25) damping *= 10.0;
        start = std::move(step->parameters);
        state = std::move(step->state);
    }
    if (options.with_covariance) {
        const Normal normal = normal_equations(jacobian(model, start, steps, rows), state);
        if (cv::invert(normal.matrix, fit.covariance, cv::DECOMP_CHOLESKY) == 0.0) fit.settled = false;
    }
    fit.parameters = std::move(start);
    fit.residuals = std::move(state.residuals.values);
    fit.weights = std::move(state.weights);
    fit.cost = state.cost;
    return fit;
}

}  // namespace ridgetally

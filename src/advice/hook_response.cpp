#include "advice/hook_response.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace ridgetally {
namespace {

/// A belief about one number.
struct Belief {
    double mean = 0.0;
    double variance = 0.0;
};

/// Sums of a weighted straight line of ln(width) over ln(hook).
struct Line {
    double weight = 0.0;
    double mean_x = 0.0;
    double mean_y = 0.0;
    double sxx = 0.0;
    double sxy = 0.0;
};

Line line_through(const HookSeries& points, double repeat_std) {
    const auto weight_of = [&](const HookResponsePoint& p) {
        const double own = p.stitch_width_mm.relative_std();
        return 1.0 / (own * own + repeat_std * repeat_std);
    };
    Line line;
    for (const auto& p : points) {
        line.weight += weight_of(p);
        line.mean_x += weight_of(p) * std::log(p.hook_mm);
        line.mean_y += weight_of(p) * std::log(p.stitch_width_mm.value);
    }
    line.mean_x /= line.weight;
    line.mean_y /= line.weight;
    for (const auto& p : points) {
        const double dx = std::log(p.hook_mm) - line.mean_x;
        line.sxx += weight_of(p) * dx * dx;
        line.sxy += weight_of(p) * dx * (std::log(p.stitch_width_mm.value) - line.mean_y);
    }
    return line;
}

/// How width grows with the hook within series, whatever their levels.
struct CommonSlope {
    double sxx = 0.0;
    double sxy = 0.0;
    std::set<double> hooks_mm;  ///< of the series that say something of it

    void add(const HookSeries& series, double repeat_std) {
        std::set<double> hooks;
        for (const auto& p : series) hooks.insert(p.hook_mm);
        if (hooks.size() < 2) return;
        const Line line = line_through(series, repeat_std);
        sxx += line.sxx;
        sxy += line.sxy;
        hooks_mm.merge(hooks);
    }
    [[nodiscard]] bool known() const { return !hooks_mm.empty(); }
    [[nodiscard]] double value() const { return sxy / sxx; }
    [[nodiscard]] double variance() const { return 1.0 / sxx; }
};

CommonSlope slope_of(const std::vector<HookSeries>& all, double repeat_std) {
    CommonSlope slope;
    for (const auto& series : all) slope.add(series, repeat_std);
    return slope;
}

/// The belief after seeing `value` with `variance` (two normal distributions multiplied).
Belief updated(const Belief& prior, double value, double variance) {
    const double precision = 1.0 / prior.variance + 1.0 / variance;
    return {(prior.mean / prior.variance + value / variance) / precision, 1.0 / precision};
}

std::string source_of(const HookResponse& response, const HookPractice& practice) {
    std::string text = "prior: " + practice.response.source;
    if (response.other_yarns > 0)
        text = "learned from " + std::to_string(response.other_yarns) +
               (response.other_yarns == 1 ? " other yarn of yours; " : " other yarns of yours; ") + text;
    if (response.hooks_of_this_yarn > 1)
        text =
            "learned from " + std::to_string(response.hooks_of_this_yarn) + " hooks with this yarn; " + text;
    return text;
}

}  // namespace

HookResponse learn_response(const HookResponsePoint& now, const HookRecord& record,
                            const HookPractice& practice) {
    HookResponse response;
    response.repeat_std = practice.gauge_repeat.value / std::sqrt(3.0);
    const UsualRange& published = practice.response;
    const double prior_std = (published.high - published.low) / (2.0 * 2.0);  // low to high is +-2 std
    const double yarn_variance = 0.5 * prior_std * prior_std;
    Belief belief{published.usual, prior_std * prior_std - yarn_variance};
    for (const auto& yarn : record.other_yarns) {
        const CommonSlope slope = slope_of(yarn, response.repeat_std);
        if (!slope.known()) continue;
        belief = updated(belief, slope.value(), slope.variance() + yarn_variance);
        ++response.other_yarns;
    }
    belief.variance += yarn_variance;
    HookSeries like_now = record.this_yarn;
    like_now.push_back(now);
    CommonSlope slope = slope_of(record.this_yarn_otherwise, response.repeat_std);
    slope.add(like_now, response.repeat_std);
    response.hooks_of_this_yarn = static_cast<int>(slope.hooks_mm.size());
    if (slope.known()) belief = updated(belief, slope.value(), slope.variance());
    const Line line = line_through(like_now, response.repeat_std);
    const double exponent = std::clamp(belief.mean, published.low, published.high);
    response.exponent = {
        exponent, std::sqrt(belief.variance), {{"hook response", std::sqrt(belief.variance) / exponent}}};
    response.mean_log_hook = line.mean_x;
    response.mean_log_width = line.mean_y;
    response.mean_log_width_std = std::sqrt(1.0 / line.weight);
    response.source = source_of(response, practice);
    return response;
}

PredictedWidth predict_width(const HookResponse& response, double hook_mm) {
    const double away = std::log(hook_mm) - response.mean_log_hook;
    const double from_exponent = response.exponent.std * away;
    return {response.mean_log_width + response.exponent.value * away,
            std::sqrt(response.mean_log_width_std * response.mean_log_width_std +
                      from_exponent * from_exponent + response.repeat_std * response.repeat_std)};
}

Measured PredictedWidth::width_mm() const { return measured(std::exp(mean_log), {{"prediction", std_log}}); }

}  // namespace ridgetally

#include "lattice/reading.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace ridgetally {
namespace {

constexpr double log_step = 0.02;  // 2 % between tried pitches: a third of the comb's peak width at 3 periods
constexpr double same_pitch_log = 0.08;   // peaks nearer than 8 % are one peak of the comb
constexpr double other_pitch_log = 0.12;  // readings further apart are not one period measured twice
constexpr std::size_t stitch_candidates = 8;
constexpr double sample_step_px = 0.5;
constexpr double row_weight =
    0.7;  // rows carry a turned face or a shift, so their comb is less regular; not swept
constexpr double prior_weight =
    0.06;  // one sd off in height:width costs 0.03 of a comb score; chosen on development pictures, not swept
constexpr double legs_agree = 0.6;
constexpr double line_weight = 1.0;
constexpr double line_limit =
    0.15;  // beyond it the lines are plain; stripes of colour must not rule; not swept
constexpr std::size_t readings_kept = 24;  // a stitch family
constexpr int shifts_per_stitch = 12;

bool other_pitch(double a, double b) { return std::abs(std::log(a / b)) > other_pitch_log; }

/// Autocorrelation along a half line, sampled every sample_step_px.
using Profile = std::vector<float>;

double sample(const Profile& profile, double lag_px) {
    const double at = lag_px / sample_step_px;
    const auto i = static_cast<std::size_t>(at);
    if (i + 1 >= profile.size()) return profile.empty() ? 0.0 : profile.back();
    const double f = at - static_cast<double>(i);
    return (1 - f) * profile[i] + f * profile[i + 1];
}

/// Multiples of the period must agree and the half-way lags must not. A period whose half or third agrees
/// nearly as well is itself a multiple; the two legs of a V agree at most 0.56 times as well as two Vs on the
/// six knitted crops it was measured on, by brightness alone.
double comb_score(const Profile& profile, double period_px) {
    const double first = sample(profile, period_px);
    const double peaks =
        (first + sample(profile, 2 * period_px) + 0.5 * sample(profile, 3 * period_px)) / 2.5;
    const double half = sample(profile, 0.5 * period_px);
    const double valleys = (half + sample(profile, 1.5 * period_px)) / 2;
    const double third = 0.5 * (sample(profile, period_px / 3) + sample(profile, 2 * period_px / 3));
    const double multiple = std::max({0.0, half - legs_agree * first, third - legs_agree * first});
    return peaks - 0.5 * valleys - multiple;
}

/// Rows of crochet lie under continuous top loops, so the texture agrees with itself further along a row than
/// across the rows, whatever the lag.
double line_score(const Profile& along, const Profile& across, double reach_px) {
    const auto n = static_cast<std::ptrdiff_t>(std::min(
        {reach_px / sample_step_px, static_cast<double>(along.size()), static_cast<double>(across.size())}));
    if (n < 1) return 0.0;
    const double a = std::accumulate(along.begin(), along.begin() + n, 0.0);
    const double b = std::accumulate(across.begin(), across.begin() + n, 0.0);
    return (a - b) / static_cast<double>(n);
}

struct StitchCandidate {
    double direction_rad;
    double pitch_px;
    double score;
    double line_score;
};

Profile along_rows(const Autocorrelation& texture, double direction_rad, double reach_px) {
    Profile profile;
    for (double lag = 0; lag < reach_px; lag += sample_step_px) {
        profile.push_back(texture.at(lag * std::cos(direction_rad), lag * std::sin(direction_rad)));
    }
    return profile;
}

/// For each lag across the rows, the best agreement over all sideways shifts: each round of a hat starts a
/// little to the side of the one below, and that shift is not the row pitch.
Profile across_rows(const Autocorrelation& texture, const StitchCandidate& stitch, double reach_px) {
    const double ux = std::cos(stitch.direction_rad);
    const double uy = std::sin(stitch.direction_rad);
    Profile profile;
    for (double lag = 0; lag < reach_px; lag += sample_step_px) {
        float best = -1.0F;
        for (int i = 0; i < shifts_per_stitch; ++i) {
            const double shift = stitch.pitch_px * (static_cast<double>(i) / shifts_per_stitch - 0.5);
            best = std::max(best, texture.at(-lag * uy + shift * ux, lag * ux + shift * uy));
        }
        profile.push_back(best);
    }
    return profile;
}

bool same_stitch(const StitchCandidate& a, const StitchCandidate& b) {
    return std::abs(std::log(a.pitch_px / b.pitch_px)) <= same_pitch_log &&
           std::abs(std::sin(a.direction_rad - b.direction_rad)) <= 0.5;
}

std::vector<StitchCandidate> stitch_candidates_of(const Autocorrelation& texture,
                                                  const SearchOptions& options) {
    std::vector<StitchCandidate> all;
    for (const double direction : options.row_directions_rad) {
        const Profile profile = along_rows(texture, direction, 3.2 * options.most_stitch_px);
        const Profile square =
            along_rows(texture, direction + std::numbers::pi / 2, 3.2 * options.most_stitch_px);
        for (double pitch = options.least_stitch_px; pitch < options.most_stitch_px;
             pitch *= std::exp(log_step)) {
            all.push_back(
                {direction, pitch, comb_score(profile, pitch), line_score(profile, square, 3 * pitch)});
        }
    }
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.score > b.score; });
    std::vector<StitchCandidate> kept;
    for (const auto& candidate : all) {
        const bool known =
            std::any_of(kept.begin(), kept.end(), [&](const auto& k) { return same_stitch(candidate, k); });
        if (!known) kept.push_back(candidate);
        if (kept.size() >= stitch_candidates) break;
    }
    return kept;
}

void add_readings(std::vector<Reading>& readings, const StitchCandidate& stitch, double period_px,
                  double row_score, const SearchOptions& options) {
    for (const auto& prior : options.priors) {
        for (const int rows : prior.rows_per_period) {
            Reading r;
            r.row_direction_rad = stitch.direction_rad;
            r.stitch_pitch_px = stitch.pitch_px;
            r.period_px = period_px;
            r.rows_per_period = rows;
            r.family = prior.family;
            r.stitch_score = stitch.score;
            r.row_score = row_score;
            r.line_score = stitch.line_score;
            const double off =
                std::log(r.row_pitch_px() / r.stitch_pitch_px / prior.height_over_width) / prior.log_std;
            r.log_prior = -0.5 * off * off;
            r.score = r.stitch_score + row_weight * r.row_score + prior_weight * r.log_prior +
                      line_weight * prior.row_lines * std::clamp(r.line_score, -line_limit, line_limit);
            readings.push_back(r);
        }
    }
}

/// Rows of the one run across the rows of the other: stitches and rows change places.
bool turned(const Reading& a, const Reading& b) {
    return std::abs(std::sin(a.row_direction_rad - b.row_direction_rad)) > 0.5;
}

bool same_reading(const Reading& a, const Reading& b) {
    return std::abs(std::log(a.stitch_pitch_px / b.stitch_pitch_px)) <= same_pitch_log &&
           std::abs(std::log(a.row_pitch_px() / b.row_pitch_px())) <= same_pitch_log &&
           a.family == b.family && a.rows_per_period == b.rows_per_period && !turned(a, b);
}

}  // namespace

bool other_stitch(const Reading& a, const Reading& b) {
    return other_pitch(a.stitch_pitch_px, b.stitch_pitch_px) || turned(a, b);
}

bool other_row(const Reading& a, const Reading& b) { return other_pitch(a.row_pitch_px(), b.row_pitch_px()); }

std::vector<Reading> search_readings(const Autocorrelation& texture, const SearchOptions& options) {
    std::vector<Reading> readings;
    for (const auto& stitch : stitch_candidates_of(texture, options)) {
        const Profile profile = across_rows(texture, stitch, 3.2 * options.most_period_px);
        const double most = std::min(options.most_period_px, 0.95 * texture.max_lag_px);
        for (double period = 0.5 * options.least_stitch_px; period < most; period *= std::exp(log_step)) {
            add_readings(readings, stitch, period, comb_score(profile, period), options);
        }
    }
    std::stable_sort(readings.begin(), readings.end(),
                     [](const auto& a, const auto& b) { return a.score > b.score; });
    std::vector<Reading> kept;
    for (const auto& reading : readings) {
        const bool known =
            std::any_of(kept.begin(), kept.end(), [&](const auto& k) { return same_reading(reading, k); });
        if (!known) kept.push_back(reading);
        if (kept.size() >= readings_kept * options.priors.size()) break;
    }
    return kept;
}

}  // namespace ridgetally

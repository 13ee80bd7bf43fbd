#include "scale/numeral_places.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/units.h"

namespace ridgetally {
namespace {

constexpr int bins_per_index = 4;
constexpr double beyond_tips_pitches = 5.0;  // numerals stand right beyond the longest marks, or beside them
constexpr double mask_px = 3.5;  // half width of a mark with its blur, that is not ink of a numeral ...
constexpr double least_mask_pitches = 0.1;    // ... but for bold marks
constexpr double past_tip_pitches = 0.2;      // a mark's own end, blurred ...
constexpr double past_tip_px = 1.5;           // ... by this at least
constexpr double smallest_gap_indices = 1.2;  // between two numerals; digits of one stand closer
constexpr double least_height = 0.25;         // of the boldest numeral's ink: a 1 has little
constexpr double noise_height = 3.0;          // of the noise between them
constexpr std::size_t fewest_marks = 12;

// How numerals stand, none of it swept: common practice, no source.
constexpr double without_share = 0.25;  // of rules have no numerals that are seen
constexpr double seen_share = 0.85;     // of the whole marks have theirs: the zero and the last one often not
constexpr double least_clutter = 0.02;  // other blobs an index
constexpr double beside_share = 0.3;    // of their spacing: how far numerals stand beside their marks
constexpr double beside_step = 0.5;     // indices
constexpr double beside_log_prior = -2.5;  // most rules have them right at the mark
constexpr double reach_indices = 1.0;      // from its place: 9 and 10 are not centred alike ...
constexpr double reach_share = 0.04;       // ... and this share of the spacing more
constexpr double most_weight = 14.0;       // nats: as much as seven of them, however many there are

/// Rows of each column that may hold numerals, and whether a mark covers a sample.
class NumeralZone {
  public:
    NumeralZone(const Strip& strip, const RulerLine& line) : strip_(strip), line_(line) {
        std::vector<double> reach;
        for (const MeasuredMark& m : line.marks) reach.push_back(reach_of(m));
        const double shortest = quantile_of(reach, 0.2);
        const double longest = quantile_of(reach, 0.98);
        from_ = shortest + 0.4 * line.pitch_px;
        mask_ = std::max(mask_px / line.pitch_px, least_mask_pitches);
        to_ = longest + beyond_tips_pitches * line.pitch_px;
    }

    /// Mean gradient over the zone's rows at one place along the row.
    [[nodiscard]] double ink(double index) const {
        const double u = line_.model.position(index);
        const int i = static_cast<int>(std::lround(strip_.column(u)));
        if (i < 1 || i + 1 >= strip_.grey.cols) return 0.0;
        const double foot = line_.foot_w(u);
        const double way = line_.tips_at_greater_w ? 1.0 : -1.0;
        const double skip = masked_reach(index);
        const double from = std::max(from_, skip);
        const int j0 = static_cast<int>(std::lround(strip_.row(foot + way * from)));
        const int j1 = static_cast<int>(std::lround(strip_.row(foot + way * to_)));
        double sum = 0.0;
        for (int j = std::max(1, std::min(j0, j1)); j <= std::min(strip_.grey.rows - 2, std::max(j0, j1));
             ++j)
            sum += static_cast<double>(
                std::abs(strip_.grey.at<float>(j, i + 1) - strip_.grey.at<float>(j, i - 1)) +
                std::abs(strip_.grey.at<float>(j + 1, i) - strip_.grey.at<float>(j - 1, i)));
        return sum;
    }

  private:
    [[nodiscard]] double reach_of(const MeasuredMark& m) const {
        const double foot = line_.foot_w(m.at_u);
        return line_.tips_at_greater_w ? m.bottom_w - foot : foot - m.top_w;
    }

    /// How far from the foot the marks near this index, if any, hide what lies behind.
    [[nodiscard]] double masked_reach(double index) const {
        auto at = std::lower_bound(line_.marks.begin(), line_.marks.end(), index - mask_,
                                   [](const MeasuredMark& m, double k) { return m.index < k; });
        double reach = 0.0;
        for (; at != line_.marks.end() && at->index <= index + mask_; ++at)
            reach = std::max(reach, reach_of(*at) + past_tip_px + past_tip_pitches * line_.pitch_px);
        return reach;
    }

    const Strip& strip_;
    const RulerLine& line_;
    double from_ = 0.0;
    double to_ = 0.0;
    double mask_ = 0.0;  ///< indices
};

std::vector<double> smoothed(const std::vector<double>& ink) {
    constexpr int reach = bins_per_index / 2;
    std::vector<double> out(ink.size(), 0.0);
    for (int i = 0; i < static_cast<int>(ink.size()); ++i) {
        const int from = std::max(0, i - reach);
        const int to = std::min(static_cast<int>(ink.size()) - 1, i + reach);
        for (int j = from; j <= to; ++j)
            out[static_cast<std::size_t>(i)] += ink[static_cast<std::size_t>(j)] / (to - from + 1);
    }
    return out;
}

/// Middles of the runs that stand out, in indices from the first mark.
std::vector<double> blobs(const std::vector<double>& ink) {
    const double low = quantile_of(ink, 0.3);
    const double noise = low - quantile_of(ink, 0.05);
    const double least = low + std::max(least_height * (quantile_of(ink, 0.97) - low), noise_height * noise);
    std::vector<double> middles;
    double weight = 0.0;
    double moment = 0.0;
    std::size_t last = 0;
    const auto close = [&] {
        if (weight > 0.0) middles.push_back(moment / weight / bins_per_index);
        weight = moment = 0.0;
    };
    for (std::size_t i = 0; i < ink.size(); ++i) {
        if (ink[i] < least) continue;
        if (weight > 0.0 && static_cast<double>(i - last) > smallest_gap_indices * bins_per_index) close();
        weight += ink[i] - low;
        moment += (ink[i] - low) * static_cast<double>(i);
        last = i;
    }
    close();
    return middles;
}

/// Log-likelihood of blobs that no numeral explains: a Poisson process of their own rate.
double clutter_score(double blobs, double indices) {
    const double rate = std::max(least_clutter, blobs / indices);
    return blobs * std::log(rate) - indices * rate;
}

/// Log-odds of the blobs against mere clutter where numerals stand at `zero` + n `spacing`.
double log_odds(const std::vector<double>& places, double first, double last, double zero, double spacing) {
    const double reach = reach_indices + reach_share * spacing;
    const auto seen = static_cast<double>(places.size());
    double sum = -clutter_score(seen, last - first);
    double hits = 0.0;
    for (double at = zero + spacing * std::ceil((first - zero) / spacing); at <= last; at += spacing) {
        const bool hit =
            std::any_of(places.begin(), places.end(), [&](double p) { return std::abs(p - at) <= reach; });
        sum += std::log(hit ? seen_share / (2.0 * reach) : 1.0 - seen_share);
        hits += hit ? 1.0 : 0.0;
    }
    return sum + clutter_score(seen - hits, last - first);
}

/// The same, wherever beside their marks the numerals stand.
double best_log_odds(const std::vector<double>& places, double first, double last, double zero,
                     double spacing) {
    double best = log_odds(places, first, last, zero, spacing);
    const int steps = static_cast<int>(beside_share * spacing / beside_step);
    for (int i = -steps; i <= steps; ++i)
        best =
            std::max(best, beside_log_prior + log_odds(places, first, last, zero + beside_step * i, spacing));
    return best;
}

}  // namespace

std::vector<double> numeral_places(const Strip& strip, const RulerLine& line) {
    if (line.marks.size() < fewest_marks) return {};
    const NumeralZone zone(strip, line);
    const int first = line.marks.front().index;
    const int last = line.marks.back().index;
    std::vector<double> ink;
    for (int b = 0; b <= (last - first) * bins_per_index; ++b)
        ink.push_back(zone.ink(first + static_cast<double>(b) / bins_per_index));
    std::vector<double> places = blobs(smoothed(ink));
    for (double& p : places) p += first;
    return places;
}

void weigh_numerals(GraduationEvidence& evidence, const std::vector<double>& places, int first, int last) {
    if (places.empty()) return;
    for (GraduationReading& reading : evidence.readings) {
        if (reading.mm_per_index <= 0.0) continue;
        const double spacing = (reading.unit == LengthUnit::mm ? 10.0 : mm_per_inch) / reading.mm_per_index;
        double best = -std::numeric_limits<double>::infinity();
        for (double zero = reading.whole_index; zero < reading.whole_index + spacing - 0.5;
             zero += reading.whole_period)
            best = std::max(best, best_log_odds(places, first, last, zero, spacing));
        reading.log_score +=
            std::min(most_weight, std::log(without_share + (1.0 - without_share) * std::exp(best)));
    }
    std::stable_sort(evidence.readings.begin(), evidence.readings.end(),
                     [](const auto& a, const auto& b) { return a.log_score > b.log_score; });
}

}  // namespace ridgetally

#include "scale/label_spacing.h"

#include <algorithm>
#include <cmath>

#include "core/units.h"

namespace ridgetally {
namespace {

constexpr int bins_per_index = 4;
constexpr double beyond_tips_pitches = 5.0;   // numerals stand right beyond the longest marks, or beside them
constexpr double mask_pitches = 0.35;         // half width of a mark that is not ink of a numeral
constexpr double smallest_gap_indices = 1.2;  // between two numerals; digits of one stand closer
constexpr double least_spacing_indices = 3.5;
constexpr double uneven_share = 0.15;  // of the spacing: 9 and 10 are not centred alike
constexpr int fewest_spacings = 3;
constexpr double agreement_share = 0.7;
constexpr double label_weight = 8.0;  // nats: two clear marks
constexpr double match_share = 0.07;

/// Rows of each column that may hold numerals, and whether a mark covers a sample.
class LabelZone {
  public:
    LabelZone(const Strip& strip, const RulerLine& line) : strip_(strip), line_(line) {
        std::vector<double> reach;
        for (const MeasuredMark& m : line.marks) reach.push_back(reach_of(m));
        const double shortest = quantile_of(reach, 0.2);
        const double longest = quantile_of(reach, 0.98);
        from_ = shortest + 0.4 * line.pitch_px;
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

    /// How far from the foot the mark at this index, if any, hides what lies behind.
    [[nodiscard]] double masked_reach(double index) const {
        const int nearest = static_cast<int>(std::lround(index));
        if (std::abs(index - nearest) > mask_pitches) return 0.0;
        const auto at = std::lower_bound(line_.marks.begin(), line_.marks.end(), nearest,
                                         [](const MeasuredMark& m, int k) { return m.index < k; });
        if (at == line_.marks.end() || at->index != nearest) return 0.0;
        return reach_of(*at) + 0.5 * line_.pitch_px;
    }

    const Strip& strip_;
    const RulerLine& line_;
    double from_ = 0.0;
    double to_ = 0.0;
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

/// Middles of the runs above half height, in indices from the first mark.
std::vector<double> blobs(const std::vector<double>& ink) {
    const double low = quantile_of(ink, 0.3);
    const double least = low + 0.4 * (quantile_of(ink, 0.97) - low);
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

}  // namespace

std::optional<LabelSpacing> label_spacing(const Strip& strip, const RulerLine& line) {
    if (line.marks.size() < 12) return std::nullopt;
    const LabelZone zone(strip, line);
    const int first = line.marks.front().index;
    const int last = line.marks.back().index;
    std::vector<double> ink;
    for (int b = 0; b <= (last - first) * bins_per_index; ++b)
        ink.push_back(zone.ink(first + static_cast<double>(b) / bins_per_index));
    const auto middles = blobs(smoothed(ink));
    std::vector<double> steps;
    for (std::size_t i = 1; i < middles.size(); ++i) steps.push_back(middles[i] - middles[i - 1]);
    if (static_cast<int>(steps.size()) < fewest_spacings) return std::nullopt;
    const double spacing = median_of(steps);
    const auto even = std::count_if(steps.begin(), steps.end(), [&](double s) {
        return std::abs(s - spacing) <= uneven_share * spacing;
    });
    if (spacing < least_spacing_indices || even < fewest_spacings ||
        static_cast<double>(even) < agreement_share * static_cast<double>(steps.size()))
        return std::nullopt;
    std::vector<double> kept;
    for (const double s : steps)
        if (std::abs(s - spacing) <= uneven_share * spacing) kept.push_back(s);
    double mean = 0.0;
    for (const double s : kept) mean += s / static_cast<double>(kept.size());
    return LabelSpacing{mean, static_cast<int>(middles.size())};
}

void weigh_labels(GraduationEvidence& evidence, const LabelSpacing& labels) {
    for (GraduationReading& reading : evidence.readings) {
        if (reading.mm_per_index <= 0.0) continue;
        const double expected = (reading.unit == LengthUnit::mm ? 10.0 : mm_per_inch) / reading.mm_per_index;
        const bool fits = std::abs(labels.indices / expected - 1.0) <= match_share;
        reading.log_score += fits ? label_weight : -label_weight;
    }
    std::stable_sort(evidence.readings.begin(), evidence.readings.end(),
                     [](const auto& a, const auto& b) { return a.log_score > b.log_score; });
}

}  // namespace ridgetally

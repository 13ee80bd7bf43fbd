#include "scale/graduation.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

#include "core/units.h"
#include "scale/robust_fit.h"

namespace ridgetally {
namespace {

/// How a rule is divided: the mark at index k belongs to the first step that divides k.
struct Division {
    const char* name;
    LengthUnit unit;
    double mm_per_index;
    std::array<int, 6> steps;  ///< coarsest first, 0 ends the list
    double log_prior;          ///< how seldom such rules are sold: common practice, no source
};

constexpr double inch = mm_per_inch;
constexpr std::array divisions{
    Division{"mm with 5 and 10", LengthUnit::mm, 1.0, {10, 5, 1}, 0.0},
    Division{"mm with 10", LengthUnit::mm, 1.0, {10, 1}, -1.0},
    Division{"mm with 5", LengthUnit::mm, 1.0, {5, 1}, -4.0},
    Division{"half mm with 1, 5 and 10 mm", LengthUnit::mm, 0.5, {20, 10, 2, 1}, 0.0},
    Division{"half mm with 1 and 10 mm", LengthUnit::mm, 0.5, {20, 2, 1}, -2.0},
    Division{"half mm with 5 and 10 mm", LengthUnit::mm, 0.5, {20, 10, 1}, -3.0},
    Division{"2 mm with 10", LengthUnit::mm, 2.0, {5, 1}, -16.0},
    Division{"1/32 inch", LengthUnit::inch, inch / 32, {32, 16, 8, 4, 2, 1}, -2.0},
    Division{"1/16 inch", LengthUnit::inch, inch / 16, {16, 8, 4, 2, 1}, 0.0},
    Division{"1/16 inch, inch marks like halves", LengthUnit::inch, inch / 16, {8, 4, 2, 1}, -12.0},
    Division{"1/8 inch", LengthUnit::inch, inch / 8, {8, 4, 2, 1}, 0.0},
    Division{"1/8 inch, inch marks like halves", LengthUnit::inch, inch / 8, {4, 2, 1}, -12.0},
    Division{"1/4 inch", LengthUnit::inch, inch / 4, {4, 2, 1}, -2.0},
    // Half centimetres or half inches alone look alike, and like the legs of stitches: no reading.
    Division{"every 2nd", LengthUnit::mm, 0.0, {2, 1}, -3.0},
    Division{"1/10 inch", LengthUnit::inch, inch / 10, {10, 5, 1}, -25.0},
    Division{"every 3rd", LengthUnit::mm, 0.0, {3, 1}, -3.0},
    Division{"every 6th", LengthUnit::mm, 0.0, {6, 1}, -3.0},
    Division{"every 7th", LengthUnit::mm, 0.0, {7, 1}, -3.0},
    Division{"every 9th", LengthUnit::mm, 0.0, {9, 1}, -3.0},
    Division{"every 11th", LengthUnit::mm, 0.0, {11, 1}, -3.0},
    Division{"every 12th with 6", LengthUnit::mm, 0.0, {12, 6, 1}, -3.0},
    Division{"every 13th", LengthUnit::mm, 0.0, {13, 1}, -3.0},
};

constexpr double length_range = 6.0;    // of the excess: the longest marks are up to seven times the shortest
constexpr double mean_range = 1.5;      // of a class's excess over the next shorter one's, before it is seen
constexpr double outlier_share = 0.1;   // marks that a numeral, hair or ornament lengthens
constexpr double least_scatter = 0.07;  // of the short marks' length: printing and end finding
constexpr double least_gain = 12.0;     // nats over "all marks alike": three marks that say so
constexpr double least_gain_per_mark = 0.2;  // fabric and grain reach 0.1 by chance, rules 0.5 and more
constexpr double least_explained = 0.8;
constexpr double least_long_explained = 0.55;  // numerals and ornaments lengthen many a long mark
constexpr double least_class_ratio =
    1.1;  // of neighbouring classes' lengths; rules are made with 1.13 and more

/// Excess of each length over the short marks around it, as a share of them: 0 for the shortest class. The
/// short marks' own length follows a straight line (perspective across the rule).
std::vector<MarkLength> excess_lengths(const std::vector<MarkLength>& lengths) {
    constexpr std::size_t window = 12;
    std::vector<Sample> low;
    for (std::size_t from = 0; from < lengths.size(); from += window / 2) {
        const std::size_t to = std::min(lengths.size(), from + window);
        if (to - from < window / 2 && !low.empty()) break;
        std::vector<double> part;
        for (std::size_t i = from; i < to; ++i) part.push_back(lengths[i].length);
        low.push_back({static_cast<double>(lengths[(from + to) / 2].index), quantile_of(part, 0.25)});
    }
    const Polynomial trend = robust_polynomial(low, low.size() >= 4 ? 1 : 0, 0.02);
    std::vector<MarkLength> excess;
    for (const MarkLength& l : lengths)
        excess.push_back({l.index, l.length / std::max(trend(l.index), 0.3) - 1.0});
    return excess;
}

double scatter_of_short(const std::vector<MarkLength>& excess) {
    std::vector<double> all;
    for (const MarkLength& e : excess) all.push_back(e.length);
    const double low = quantile_of(all, 0.25);
    std::vector<double> deviations;
    for (const double e : all)
        if (e < low + 0.5) deviations.push_back(std::abs(e - low));
    return std::clamp(1.4826 * median_of(deviations), least_scatter, 0.35);
}

int rank_of(const Division& division, int index, int phase) {
    for (int r = 0; division.steps[static_cast<std::size_t>(r)] > 0; ++r)
        if ((index - phase) % division.steps[static_cast<std::size_t>(r)] == 0) return r;
    return -1;
}

struct ClassScore {
    double score = 0.0;
    int explained = 0;  ///< lengths within three widths of the class's own
};

/// Log of the mixture's evidence for lengths of one class with unknown mean: normal about their median or,
/// for the share of outliers, anywhere in the range; less the Occam factor of the mean (MacKay, Information
/// Theory, Inference, and Learning Algorithms, 2003, ch. 28), so that a class of one or two marks explains
/// little.
ClassScore class_score(const std::vector<double>& lengths, double centre, double scatter) {
    std::vector<double> deviations;
    for (const double l : lengths) deviations.push_back(std::abs(l - centre));
    double width = scatter * (1.0 + 0.2 * std::max(centre, 0.0));
    if (lengths.size() >= 4)
        width = std::clamp(1.4826 * median_of(deviations), width, std::max(width, 0.1 * (1.0 + centre)));
    const double peak = (1.0 - outlier_share) / (width * std::sqrt(2.0 * std::numbers::pi));
    ClassScore result;
    for (const double d : deviations) {
        result.score +=
            std::log(peak * std::exp(-0.5 * d * d / (width * width)) + outlier_share / length_range);
        result.explained += d <= 3.0 * width ? 1 : 0;
    }
    const double spread = width * std::sqrt(2.0 * std::numbers::pi / static_cast<double>(lengths.size()));
    result.score += std::log(std::min(spread / mean_range, 1.0));
    return result;
}

struct PhaseScore {
    bool possible = false;
    double score = 0.0;
    double explained = 0.0;
    double long_explained = 0.0;
};

PhaseScore score_phase(const Division& division, int phase, const std::vector<MarkLength>& excess,
                       double scatter) {
    std::array<std::vector<double>, 6> classes;
    for (const MarkLength& e : excess)
        classes[static_cast<std::size_t>(rank_of(division, e.index, phase))].push_back(e.length);
    PhaseScore result;
    result.score = division.log_prior - std::log(static_cast<double>(division.steps.front()));
    double shorter = -1e9;
    int seen = 0;
    int explained_short = 0;
    int explained_long = 0;
    std::size_t longer = 0;
    for (std::size_t r = classes.size(); r-- > 0;) {
        if (classes[r].empty()) continue;
        const double centre = median_of(classes[r]);
        if (seen > 0 && 1.0 + centre < least_class_ratio * (1.0 + shorter)) return {};
        shorter = centre;
        const ClassScore c = class_score(classes[r], centre, scatter);
        result.score += c.score;
        (seen == 0 ? explained_short : explained_long) += c.explained;
        longer += seen == 0 ? 0 : classes[r].size();
        ++seen;
    }
    result.possible = seen >= 2;
    if (!result.possible) return result;
    result.explained =
        static_cast<double>(explained_short + explained_long) / static_cast<double>(excess.size());
    result.long_explained = explained_long / static_cast<double>(longer);
    return result;
}

double score_flat(const std::vector<MarkLength>& excess, double scatter) {
    std::vector<double> all;
    for (const MarkLength& e : excess) all.push_back(e.length);
    return class_score(all, median_of(all), scatter).score;
}

}  // namespace

bool GraduationEvidence::divided() const {
    if (readings.empty() || readings.front().mm_per_index <= 0.0) return false;
    const GraduationReading& best = readings.front();
    return best.log_score - flat_score >= std::max(least_gain, least_gain_per_mark * marks) &&
           best.explained >= least_explained && best.long_explained >= least_long_explained;
}

GraduationEvidence weigh_graduations(const std::vector<MarkLength>& lengths) {
    GraduationEvidence evidence;
    evidence.marks = static_cast<int>(lengths.size());
    if (lengths.size() < 8) return evidence;
    const auto excess = excess_lengths(lengths);
    const double scatter = scatter_of_short(excess);
    evidence.flat_score = score_flat(excess, scatter);
    std::map<double, GraduationReading> best;
    for (const Division& division : divisions) {
        for (int phase = 0; phase < division.steps.front(); ++phase) {
            const PhaseScore s = score_phase(division, phase, excess, scatter);
            if (!s.possible) continue;
            const auto known = best.find(division.mm_per_index);
            if (known != best.end() && known->second.log_score >= s.score) continue;
            best[division.mm_per_index] = {division.unit, division.mm_per_index, phase,           s.score,
                                           division.name, s.explained,           s.long_explained};
        }
    }
    for (const auto& [mm, reading] : best) evidence.readings.push_back(reading);
    std::stable_sort(evidence.readings.begin(), evidence.readings.end(),
                     [](const auto& a, const auto& b) { return a.log_score > b.log_score; });
    return evidence;
}

}  // namespace ridgetally

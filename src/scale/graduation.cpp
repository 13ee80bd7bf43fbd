#include "scale/graduation.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <optional>

#include "core/median.h"
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
    // As seldom as its twin of 2 mm: numerals must decide between them. Fine perforations beat with the
    // pixels like that, too.
    Division{"mm with 5", LengthUnit::mm, 1.0, {5, 1}, -16.0},
    Division{"half mm with 1, 5 and 10 mm", LengthUnit::mm, 0.5, {20, 10, 2, 1}, 0.0},
    Division{"half mm with 1 and 10 mm", LengthUnit::mm, 0.5, {20, 2, 1}, -2.0},
    Division{"half mm with 5 and 10 mm", LengthUnit::mm, 0.5, {20, 10, 1}, -3.0},
    Division{"2 mm with 10", LengthUnit::mm, 2.0, {5, 1}, -16.0},
    Division{"1/32 inch", LengthUnit::inch, inch / 32, {32, 16, 8, 4, 2, 1}, -4.0},
    Division{"1/16 inch", LengthUnit::inch, inch / 16, {16, 8, 4, 2, 1}, 0.0},
    Division{"1/16 inch, inch marks like halves", LengthUnit::inch, inch / 16, {8, 4, 2, 1}, -12.0},
    Division{"1/8 inch", LengthUnit::inch, inch / 8, {8, 4, 2, 1}, 0.0},
    Division{"1/8 inch, inch marks like halves", LengthUnit::inch, inch / 8, {4, 2, 1}, -12.0},
    Division{"1/4 inch", LengthUnit::inch, inch / 4, {4, 2, 1}, -8.0},
    // Half centimetres or half inches alone look alike, and like the legs of stitches: no reading.
    Division{"every 2nd", LengthUnit::mm, 0.0, {2, 1}, -3.0},
    // Divided as mm are: see decimal_log_prior.
    Division{"1/10 inch", LengthUnit::inch, inch / 10, {10, 5, 1}, -11.0},
    Division{"1/20 inch", LengthUnit::inch, inch / 20, {20, 10, 2, 1}, -11.0},
    Division{"every 3rd", LengthUnit::mm, 0.0, {3, 1}, -3.0},
    Division{"every 6th", LengthUnit::mm, 0.0, {6, 1}, -3.0},
    Division{"every 7th", LengthUnit::mm, 0.0, {7, 1}, -3.0},
    Division{"every 9th", LengthUnit::mm, 0.0, {9, 1}, -3.0},
    Division{"every 11th", LengthUnit::mm, 0.0, {11, 1}, -3.0},
    Division{"every 12th with 6", LengthUnit::mm, 0.0, {12, 6, 1}, -3.0},
    Division{"every 13th", LengthUnit::mm, 0.0, {13, 1}, -3.0},
};

constexpr double length_range = 6.0;   // of the excess: the longest marks are up to seven times the shortest
constexpr double mean_range = 1.5;     // of a class's excess over the next shorter one's, before it is seen
constexpr double outlier_share = 0.1;  // marks that a numeral, hair or ornament lengthens
constexpr double least_scatter =
    0.03;  // of the short marks' length: printing and end finding; swept, 0.03 to 0.07
constexpr double widest_scatter =
    0.15;  // beyond, classes overlap and their order means nothing; swept, 0.15 to 0.35
constexpr double least_gain = 12.0;          // nats over "all marks alike": three marks that say so
constexpr double least_gain_per_mark = 0.2;  // fabric and grain reach 0.1 by chance, rules 0.5 and more
constexpr double least_explained = 0.8;
constexpr double least_long_explained = 0.55;  // numerals and ornaments lengthen many a long mark
// Marks closer than three pixels beat with them, and the long ones of a beat are of any length: of drawn film
// perforations 1.6 px apart 0.58 were explained. Not swept.
constexpr double beating_px = 3.0;
constexpr double least_long_explained_beating = 0.7;

// Numerals stand a millimetre beyond the longest marks, and a blurred stroke needs two pixels and a half:
// below that they run into some of the marks, odd and even ones not alike, above it ever more seldom. Chosen
// after rules read twice too fine among drawn ones of seeds 301 to 1005. The power was swept on
// seeds 901 to 2100: a plain limit reads 505 of 576 readable rules and one wrongly, 8 reads 497, 4
// reads 485, and neither reads one wrongly.
constexpr double clear_px_per_mm = 2.5;
constexpr double most_run_in_share = 0.3;

double run_in_share(double px_per_mm) {
    return most_run_in_share * std::pow(std::min(1.0, clear_px_per_mm / px_per_mm), 8);
}

// Neighbouring classes' lengths: rules are made with a ratio of 1.13 and more. How many standard errors it
// may seem less, and how a class's own scatter goes with that of the short marks, swept over 1.5 to 4 and
// 0.35 to 0.5 on the drawn rules of seeds 1 to 900 (unit_draws_test.cpp). On seeds 901 to 1800, not looked at
// before, 364 of 432 readable rules are read, and one of 569 answers has the wrong step.
constexpr double least_class_ratio = 1.13;
constexpr double hopeless_shortfall = 2.5;
constexpr double log_width_scatter = 0.5;

// The shortest marks of rules are 2 to 5 mm long (common practice, no source); log-normal; not swept.
constexpr double short_mark_mm = 3.0;
constexpr double short_mark_log_std = 0.45;

/// Log of the prior of a step, less its peak, where the shortest marks are `spacings` steps long.
double step_log_prior(double mm_per_index, double spacings) {
    if (mm_per_index <= 0.0) return 0.0;
    const double off = std::log(spacings * mm_per_index / short_mark_mm) / short_mark_log_std;
    return -0.5 * off * off;
}

// What a photo shows of a rule beside a swatch or a crown (common practice, no source); log-normal; not
// swept.
constexpr double shown_mm = 150.0;
constexpr double shown_log_std = 0.6;

double shown_log_prior(double span_mm) {
    const double off = std::log(span_mm / shown_mm) / shown_log_std;
    return -0.5 * off * off;
}

/// Tenths of an inch have the classes of millimetres, so that only their size tells: that of the shortest
/// marks (step_log_prior), and how much of the rule would be in view. Log of the odds that a row of so many
/// steps adds to its prior. With the shortest marks as long as mm marks are, millimetres win by the margin a
/// decision needs (of 365 drawn photos with metric rules none is left open by the prior of -11, two by -9);
/// marks as long as one step, 61 of them on the edge of a photographed rule, are left open.
double decimal_log_prior(const Division& division, int steps) {
    const auto metric = metric_twin_mm(division.mm_per_index);
    if (!metric) return 0.0;
    return shown_log_prior(steps * division.mm_per_index) - shown_log_prior(steps * *metric);
}

/// Excess of each length over the short marks around it, as a share of them: 0 for the shortest class. The
/// short marks' own length follows a straight line (perspective across the rule).
std::vector<MarkLength> excess_lengths(const std::vector<MarkLength>& lengths) {
    constexpr std::size_t narrowest = 6;  // three of them at least are of the shortest class, on any rule
    constexpr std::size_t widest = 12;
    const std::size_t window = std::clamp(lengths.size() / 4, narrowest, widest);
    std::vector<Sample> low;
    for (std::size_t from = 0; from < lengths.size(); from += window / 2) {
        const std::size_t to = std::min(lengths.size(), from + window);
        if (to - from < window / 2 && !low.empty()) break;
        std::vector<double> part;
        for (std::size_t i = from; i < to; ++i) part.push_back(lengths[i].length);
        const std::size_t middle = (from + to) / 2;
        low.push_back({static_cast<double>(lengths[middle].index), quantile_of(part, 0.25)});
    }
    const Polynomial trend = robust_polynomial(low, low.size() >= 4 ? 1 : 0, 0.02);
    std::vector<MarkLength> excess;
    for (const MarkLength& l : lengths)
        excess.push_back({l.index, l.length / std::max(trend(l.index), 0.3) - 1.0});
    return excess;
}

double shortest_of(const std::vector<MarkLength>& lengths) {
    std::vector<double> all;
    for (const MarkLength& l : lengths) all.push_back(l.length);
    return std::max(quantile_of(all, 0.25), 0.1);
}

/// Standard deviation of the short marks' lengths, from their lower side: at least half of a rule's marks,
/// and the shortest ones. Between the two quantiles of all lie 1.28 of it where half the marks are
/// short, 1.04 where eight in ten are.
double scatter_of_short(const std::vector<MarkLength>& excess) {
    constexpr double between = 1.16;
    std::vector<double> all;
    for (const MarkLength& e : excess) all.push_back(e.length);
    return std::clamp((quantile_of(all, 0.25) - quantile_of(all, 0.05)) / between, least_scatter, 0.35);
}

int rank_of(const Division& division, int index, int phase) {
    for (int r = 0; division.steps[static_cast<std::size_t>(r)] > 0; ++r)
        if ((index - phase) % division.steps[static_cast<std::size_t>(r)] == 0) return r;
    return -1;
}

/// Mean of the lengths within three standard deviations of the densest half: numerals and hairs lengthen
/// some, and drag the median of a few. Of two lengths that differ the shorter.
double class_centre(const std::vector<double>& lengths, double std) {
    std::vector<double> sorted = lengths;
    std::sort(sorted.begin(), sorted.end());
    const std::size_t half = sorted.size() / 2;
    std::size_t densest = 0;
    if (sorted.size() > 2)
        for (std::size_t i = 1; i + half < sorted.size(); ++i)
            if (sorted[i + half] - sorted[i] < sorted[densest + half] - sorted[densest]) densest = i;
    const double start =
        sorted.size() > 2 ? 0.5 * (sorted[densest] + sorted[densest + half]) : sorted.front();
    const double spread = sorted.size() > 2 ? sorted[densest + half] - sorted[densest] : 0.0;
    double sum = 0.0;
    double count = 0.0;
    for (const double l : sorted) {
        if (std::abs(l - start) > std::max(3.0 * std, spread)) continue;
        sum += l;
        count += 1.0;
    }
    return sum / count;
}

struct ClassScore {
    double score = 0.0;
    double centre = 0.0;      ///< the class's length
    double centre_std = 0.0;  ///< its standard error
    int explained = 0;        ///< lengths within three widths of the class's own
};

/// Log of the mixture's evidence for lengths of one class with unknown mean: normal about their centre or,
/// for the share of outliers, anywhere in the range; less the Occam factor of the mean (MacKay, Information
/// Theory, Inference, and Learning Algorithms, 2003, ch. 28), so that a class of one or two marks explains
/// little. A class may scatter more than the short marks do, at a price (log-normal): else one wide class
/// explains two narrow ones.
ClassScore class_score(const std::vector<double>& lengths, double scatter) {
    const double centre = class_centre(lengths, scatter);
    std::vector<double> deviations;
    for (const double l : lengths) deviations.push_back(std::abs(l - centre));
    const double usual = scatter * (1.0 + 0.2 * std::max(centre, 0.0));
    double width = usual;
    if (lengths.size() >= 4)
        width = std::clamp(mad_to_std * median_of(deviations), width, std::max(width, 0.1 * (1.0 + centre)));
    const double peak = (1.0 - outlier_share) / (width * std::sqrt(2.0 * std::numbers::pi));
    ClassScore result;
    result.centre = centre;
    result.score = -0.5 * std::pow(std::log(width / usual) / log_width_scatter, 2);
    result.centre_std = width / std::sqrt(static_cast<double>(lengths.size()));
    for (const double d : deviations) {
        result.score +=
            std::log(peak * std::exp(-0.5 * d * d / (width * width)) + outlier_share / length_range);
        result.explained += d <= 3.0 * width ? 1 : 0;
    }
    const double spread = width * std::sqrt(2.0 * std::numbers::pi / static_cast<double>(lengths.size()));
    result.score += std::log(std::min(spread / mean_range, 1.0));
    return result;
}

/// The longest class where numerals may have run into some of its marks: those that do not are one class, the
/// others, as much longer as a numeral is high, another. `share` of them do so.
ClassScore longest_class_score(std::vector<double> lengths, double scatter, double share) {
    const ClassScore alike = class_score(lengths, scatter);
    std::sort(lengths.begin(), lengths.end());
    std::size_t split = 0;
    for (std::size_t i = 1; i < lengths.size(); ++i)
        if (split == 0 || lengths[i] - lengths[i - 1] > lengths[split] - lengths[split - 1]) split = i;
    if (split == 0) return alike;
    const auto at = lengths.begin() + static_cast<std::ptrdiff_t>(split);
    ClassScore plain = class_score({lengths.begin(), at}, scatter);
    const ClassScore longer = class_score({at, lengths.end()}, scatter);
    const auto run_in = static_cast<double>(lengths.size() - split);
    plain.score +=
        longer.score + run_in * std::log(share) + static_cast<double>(split) * std::log(1.0 - share);
    plain.explained += longer.explained;
    return plain.score > alike.score ? plain : alike;
}

/// Log-probability that a class is seen as little longer than the next shorter one as it is: the errors of
/// both. Minus infinity where they are one class.
double ratio_score(double centre, double shorter, double std) {
    const double lack = least_class_ratio * (1.0 + shorter) - (1.0 + centre);
    if (lack <= 0.0) return 0.0;
    const double errors = lack / std;
    return errors > hopeless_shortfall ? -std::numeric_limits<double>::infinity() : -0.5 * errors * errors;
}

struct PhaseScore {
    bool possible = false;
    double score = 0.0;
    double explained = 0.0;
    double long_explained = 0.0;
};

PhaseScore score_phase(const Division& division, int phase, const std::vector<MarkLength>& excess,
                       double scatter, double pitch_px) {
    // Twins are scored alike: the same marks must not explain one better.
    const double mm = metric_twin_mm(division.mm_per_index).value_or(division.mm_per_index);
    const double share = mm > 0.0 ? run_in_share(pitch_px / mm) : 0.0;
    std::array<std::vector<double>, 6> classes;
    for (const MarkLength& e : excess)
        classes[static_cast<std::size_t>(rank_of(division, e.index, phase))].push_back(e.length);
    PhaseScore result;
    result.score = division.log_prior - std::log(static_cast<double>(division.steps.front()));
    double shorter = 0.0;
    double shorter_std = 0.0;
    int seen = 0;
    int explained_short = 0;
    int explained_long = 0;
    std::size_t longer = 0;
    for (std::size_t r = classes.size(); r-- > 0;) {
        if (classes[r].empty()) continue;
        const ClassScore c = r == 0 && share > 0.0 ? longest_class_score(classes[r], scatter, share)
                                                   : class_score(classes[r], scatter);
        result.score += c.score;
        if (seen > 0) result.score += ratio_score(c.centre, shorter, std::hypot(c.centre_std, shorter_std));
        if (!std::isfinite(result.score)) return {};
        shorter = c.centre;
        shorter_std = c.centre_std;
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
    return class_score(all, scatter).score;
}

}  // namespace

std::optional<double> metric_twin_mm(double mm_per_index) {
    if (mm_per_index == inch / 10) return 1.0;
    if (mm_per_index == inch / 20) return 0.5;
    return std::nullopt;
}

bool GraduationEvidence::divided() const {
    if (readings.empty() || readings.front().mm_per_index <= 0.0) return false;
    const GraduationReading& best = readings.front();
    if (short_scatter > widest_scatter) return false;
    const double least_long = pitch_px < beating_px ? least_long_explained_beating : least_long_explained;
    return best.log_score - flat_score >= std::max(least_gain, least_gain_per_mark * marks) &&
           best.explained >= least_explained && best.long_explained >= least_long;
}

GraduationEvidence weigh_graduations(const std::vector<MarkLength>& lengths, double pitch_px) {
    GraduationEvidence evidence;
    evidence.marks = static_cast<int>(lengths.size());
    evidence.pitch_px = pitch_px;
    if (lengths.size() < 8) return evidence;
    const auto excess = excess_lengths(lengths);
    const double scatter = scatter_of_short(excess);
    const double shortest = shortest_of(lengths);
    evidence.short_scatter = scatter;
    evidence.flat_score = score_flat(excess, scatter);
    const int steps = std::max(1, std::abs(lengths.back().index - lengths.front().index));
    std::map<double, GraduationReading> best;
    for (const Division& division : divisions) {
        const double prior =
            step_log_prior(division.mm_per_index, shortest) + decimal_log_prior(division, steps);
        for (int phase = 0; phase < division.steps.front(); ++phase) {
            PhaseScore s = score_phase(division, phase, excess, scatter, pitch_px);
            if (!s.possible) continue;
            s.score += prior;
            const auto known = best.find(division.mm_per_index);
            if (known != best.end() && known->second.log_score >= s.score) continue;
            best[division.mm_per_index] = {
                division.unit, division.mm_per_index, phase,       division.steps.front(),
                s.score,       division.name,         s.explained, s.long_explained};
        }
    }
    for (const auto& [mm, reading] : best) evidence.readings.push_back(reading);
    std::stable_sort(evidence.readings.begin(), evidence.readings.end(),
                     [](const auto& a, const auto& b) { return a.log_score > b.log_score; });
    return evidence;
}

}  // namespace ridgetally

#include "scale/ruler_decision.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace ridgetally {
namespace {

constexpr double needed_margin = 8.0;  // nats: 3000 to 1, and three contradicting marks
/// Coarser than this no fabric can be measured, and a rule read so has most often a step of half that width:
/// its shortest marks are few pixels long, and the order of their lengths is noise. Chosen after drawn rules
/// of seeds 1 to 900 (unit_draws_test.cpp): those read twice too coarse all lay below.
constexpr double least_px_per_mm = 1.5;
constexpr double told_weight = 15.0;    // of a unit told by the user, nats
constexpr double ratio_scatter = 0.03;  // of two edges' scales: perspective across 30 mm at 20 degrees tilt
constexpr double worst_ratio_cost = 25.0;  // two rulers at different heights may disagree
constexpr std::size_t most_lines = 5;
constexpr std::size_t most_readings = 5;

/// Spacing of a line where it comes nearest to the middle of another, photo pixels.
double spacing_near(const RulerLine& line, const PhotoPoint& place) {
    double best = 1e300;
    double spacing = line.pitch_px;
    for (const MeasuredMark& m : line.marks) {
        const PhotoPoint p = line.frame.photo(m.at_u, 0.0);
        const double apart = std::hypot(p.x - place.x, p.y - place.y);
        if (apart >= best) continue;
        best = apart;
        spacing = std::abs(line.model.spacing(m.index));
    }
    return spacing;
}

/// Log of the ratio of two lines' spacings, both taken where they face each other.
double log_spacing_ratio(const RulerLine& a, const RulerLine& b) {
    const MeasuredMark& middle = b.marks[b.marks.size() / 2];
    const double at_a = spacing_near(a, b.frame.photo(middle.at_u, 0.0));
    return std::log(at_a / std::abs(b.model.spacing(middle.index)));
}

struct Choice {
    std::vector<std::size_t> reading;  ///< one a line
    double score = -1e300;
};

class JointChoice {
  public:
    JointChoice(const std::vector<const RulerLine*>& lines, std::optional<LengthUnit> told)
        : lines_(lines), told_(told) {
        for (const RulerLine* a : lines_) {
            ratios_.emplace_back();
            for (const RulerLine* b : lines_)
                ratios_.back().push_back(a == b ? 0.0 : log_spacing_ratio(*a, *b));
        }
    }

    /// Best choice; where `banned` is given, the first line's step must differ from it.
    [[nodiscard]] Choice best(std::optional<double> banned) const {
        Choice best;
        std::vector<std::size_t> current(lines_.size(), 0);
        descend(0, 0.0, current, banned, best);
        return best;
    }

  private:
    void descend(std::size_t at, double score, std::vector<std::size_t>& current,
                 std::optional<double> banned, Choice& best) const {
        if (at == lines_.size()) {
            if (score > best.score) best = {current, score};
            return;
        }
        const auto& readings = lines_[at]->evidence.readings;
        for (std::size_t r = 0; r < std::min(readings.size(), most_readings); ++r) {
            if (at == 0 && banned && std::abs(readings[r].mm_per_index - *banned) < 1e-9) continue;
            current[at] = r;
            double s = score + readings[r].log_score;
            if (told_ && readings[r].mm_per_index > 0.0 && readings[r].unit != *told_) s -= told_weight;
            for (std::size_t other = 0; other < at; ++other) s -= disagreement(other, current[other], at, r);
            descend(at + 1, s, current, banned, best);
        }
    }

    [[nodiscard]] double disagreement(std::size_t a, std::size_t reading_a, std::size_t b,
                                      std::size_t reading_b) const {
        const double mm_a = lines_[a]->evidence.readings[reading_a].mm_per_index;
        const double mm_b = lines_[b]->evidence.readings[reading_b].mm_per_index;
        if (mm_a <= 0.0 || mm_b <= 0.0) return worst_ratio_cost;
        const double off = (ratios_[a][b] - std::log(mm_a / mm_b)) / ratio_scatter;
        return std::min(0.5 * off * off, worst_ratio_cost);
    }

    std::vector<const RulerLine*> lines_;
    std::optional<LengthUnit> told_;
    std::vector<std::vector<double>> ratios_;
};

/// Millimetres and tenths of an inch, or their halves: divided alike.
bool twins(const GraduationReading& a, const GraduationReading& b) {
    return metric_twin_mm(a.mm_per_index) == b.mm_per_index ||
           metric_twin_mm(b.mm_per_index) == a.mm_per_index;
}

/// Drops lines whose scale differs from the first one's by more than two edges of a ruler can.
void keep_consistent(RulerDecision& decision) {
    const DecidedLine first = decision.lines.front();
    std::vector<DecidedLine> kept{first};
    for (std::size_t i = 1; i < decision.lines.size(); ++i) {
        const DecidedLine& other = decision.lines[i];
        const double off = log_spacing_ratio(*first.line, *other.line) -
                           std::log(first.reading.mm_per_index / other.reading.mm_per_index);
        if (std::abs(off) <= 3.0 * ratio_scatter)
            kept.push_back(other);
        else
            decision.notes.push_back(
                "a row read as " + other.reading.name + " disagrees with the first row's scale by " +
                std::to_string(static_cast<int>(std::lround(100.0 * off))) + " % and is left out");
    }
    decision.lines = kept;
}

}  // namespace

RulerDecision decide_graduations(const std::vector<RulerLine>& lines, std::optional<LengthUnit> told) {
    RulerDecision decision;
    std::vector<const RulerLine*> rules;
    for (const RulerLine& line : lines)
        if (line.evidence.divided()) rules.push_back(&line);
    decision.divisions_seen = !rules.empty();
    if (rules.empty()) return decision;
    std::stable_sort(rules.begin(), rules.end(),
                     [](const auto* a, const auto* b) { return a->marks.size() > b->marks.size(); });
    if (rules.size() > most_lines) rules.resize(most_lines);

    for (std::size_t lead = 0; lead < rules.size() && decision.lines.empty(); ++lead) {
        std::rotate(rules.begin(), rules.begin() + static_cast<std::ptrdiff_t>(lead),
                    rules.begin() + static_cast<std::ptrdiff_t>(lead) + 1);
        const JointChoice joint(rules, told);
        const Choice best = joint.best(std::nullopt);
        const double mm = rules.front()->evidence.readings[best.reading.front()].mm_per_index;
        const Choice rival = joint.best(mm);
        const double margin = rival.reading.empty() ? needed_margin : best.score - rival.score;
        if (lead == 0) decision.margin = margin;
        if (mm <= 0.0 || margin < needed_margin || rules.front()->pitch_px < least_px_per_mm * mm) {
            decision.notes.push_back("a row of " + std::to_string(rules.front()->marks.size()) +
                                     " marks is left undecided between two step widths");
            continue;
        }
        decision.margin = margin;
        for (std::size_t i = 0; i < rules.size(); ++i) {
            const GraduationReading& reading = rules[i]->evidence.readings[best.reading[i]];
            if (reading.mm_per_index > 0.0) decision.lines.push_back({rules[i], reading});
        }
        keep_consistent(decision);
    }
    return decision;
}

bool could_have_scale(const std::vector<RulerLine>& lines, double px_per_mm) {
    return std::ranges::all_of(lines, [&](const RulerLine& line) {
        if (!line.evidence.divided() || line.evidence.readings.size() < 2) return true;
        const GraduationReading& best = line.evidence.readings[0];
        const GraduationReading& next = line.evidence.readings[1];
        if (!twins(best, next) || best.log_score - next.log_score >= needed_margin) return true;
        const auto agrees = [&](const GraduationReading& reading) {
            const double off = std::log(line.pitch_px / reading.mm_per_index / px_per_mm);
            return std::abs(off) <= 3.0 * ratio_scatter;
        };
        return agrees(best) || agrees(next);
    });
}

}  // namespace ridgetally

#include "scale/read_ruler.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/core.hpp>
#include <stdexcept>

#include "scale/coarse_scale.h"
#include "scale/comb_search.h"
#include "scale/mark_smooth.h"
#include "scale/ruler_decision.h"
#include "scale/ruler_line.h"
#include "scale/ruler_outline.h"

namespace ridgetally {
namespace {

/// Greatest permitted error of a material measure of length, class II, per length up to 1 m: a + b L with
/// a = 0.3 mm, b = 0.2 mm per metre begun (Directive 2014/32/EU, annex X, MI-008, chapter I, table 1).
constexpr double class_two_error_mm = 0.5;
constexpr double class_three_error_mm = 1.0;  // a = 0.6, b = 0.4: soft tapes
constexpr double bent_from_mm = 1.0;          // a row that leaves its chord by more is no stiff rule
constexpr double weight_share = 0.3;          // chains lighter than this share of a ruler found are not tried
constexpr double weight_share_elsewhere = 0.6;  // nor those that lie elsewhere: cloth, grain, keys
constexpr double widest_turn_rad = 0.17;        // 10 degrees: a bent tape, perspective
constexpr std::size_t unreadable_marks = 30;    // an even row this long is a rule, or something made like one
constexpr double unreadable_scatter = 0.025;  // of the spacing, place and lean; fabric and grain scatter more

/// Whether most of the chain lies on marks of a line already read.
bool covered(const CombChain& chain, const RulerLine& line) {
    const double u_first = std::min(line.marks.front().at_u, line.marks.back().at_u);
    const double u_last = std::max(line.marks.front().at_u, line.marks.back().at_u);
    double low = 1e300;
    double high = -1e300;
    for (const MeasuredMark& m : line.marks) {
        low = std::min(low, m.top_w);
        high = std::max(high, m.bottom_w);
    }
    std::size_t inside = 0;
    for (const CombCell& cell : chain.cells) {
        const StripPoint p = line.frame.strip_point(cell.centre_px);
        const double margin = line.pitch_px;
        inside += p.u > u_first - margin && p.u < u_last + margin && p.w > low - margin && p.w < high + margin
                      ? 1
                      : 0;
    }
    return 2 * inside >= chain.cells.size();
}

struct Survey {
    std::vector<RulerLine> lines;
    std::vector<std::string> notes;
};

bool covered(const CombChain& chain, const std::vector<RulerLine>& lines) {
    return std::any_of(lines.begin(), lines.end(),
                       [&](const RulerLine& l) { return l.evidence.divided() && covered(chain, l); });
}

void add(LineTrial trial, const CombChain& chain, Survey& survey) {
    if (trial.line) {
        survey.lines.push_back(std::move(*trial.line));
        return;
    }
    const PhotoPoint& p = chain.cells.front().centre_px;
    survey.notes.push_back("row of strokes near " + std::to_string(static_cast<int>(p.x)) + "," +
                           std::to_string(static_cast<int>(p.y)) + " rejected: " + trial.rejected);
}

/// Whether a chain could be another edge of the rule that a line was read on.
bool on_rule(const CombChain& chain, const RulerLine& line, double px_per_mm) {
    const CombCell& middle = chain.cells[chain.cells.size() / 2];
    const double turn =
        std::remainder(middle.axis_rad - std::atan2(line.frame.ty, line.frame.tx), std::numbers::pi);
    return std::abs(turn) <= widest_turn_rad &&
           std::abs(line.frame.strip_point(middle.centre_px).w) <= widest_body_mm * px_per_mm;
}

/// The rows that one read by itself does not make needless: other edges of its rule, and what is nearly as
/// long elsewhere, which might be another rule or contradict it.
std::vector<const CombChain*> further_chains(const std::vector<CombChain>& chains, std::size_t read,
                                             const RulerLine& line, double px_per_mm) {
    std::vector<const CombChain*> further;
    for (std::size_t i = read + 1; i < chains.size(); ++i) {
        const double share = on_rule(chains[i], line, px_per_mm) ? weight_share : weight_share_elsewhere;
        if (chains[i].weight >= share * chains[read].weight && !covered(chains[i], line))
            further.push_back(&chains[i]);
    }
    return further;
}

Survey survey(const GreyPyramid& pyramid, const std::vector<CombChain>& chains) {
    Survey result;
    std::size_t read = 0;
    std::optional<GraduationReading> first;
    for (; read < chains.size(); ++read) {
        if (covered(chains[read], result.lines)) continue;
        LineTrial trial = read_line(pyramid, chains[read]);
        if (trial.line) {
            const auto alone = decide_graduations({*trial.line}, std::nullopt).lines;
            if (!alone.empty()) first = alone.front().reading;
        }
        add(std::move(trial), chains[read], result);
        if (first) break;
    }
    if (!first) return result;

    const RulerLine line = result.lines.back();
    const auto further = further_chains(chains, read, line, line.pitch_px / first->mm_per_index);
    std::vector<LineTrial> trials(further.size());
    const auto read_further = [&](const cv::Range& range) {
        for (auto i = static_cast<std::size_t>(range.start); i < static_cast<std::size_t>(range.end); ++i)
            trials[i] = read_line(pyramid, *further[i], line.polarity);
    };
    const cv::Range all(0, static_cast<int>(further.size()));
    // A single one is read on all cores, which nothing in a parallel loop is.
    if (all.size() == 1)
        read_further(all);
    else
        cv::parallel_for_(all, read_further);
    for (std::size_t i = 0; i < further.size(); ++i)
        if (!covered(*further[i], result.lines)) add(std::move(trials[i]), *further[i], result);
    return result;
}

MarkLine mark_line(const DecidedLine& decided) {
    const RulerLine& line = *decided.line;
    MarkLine out;
    out.unit = decided.reading.unit;
    out.spacing_mm = decided.reading.mm_per_index;
    out.residual_px = line.residual_px;
    for (const MeasuredMark& m : settled_marks(line)) {
        const double foot_w = line.foot_w(m.at_u);
        const double tip_w = line.tips_at_greater_w ? m.bottom_w : m.top_w;
        out.marks.push_back({(m.index - decided.reading.whole_index) * decided.reading.mm_per_index,
                             line.frame.photo(m.at_u + m.lean * foot_w, foot_w),
                             line.frame.photo(m.at_u + m.lean * tip_w, tip_w)});
    }
    return out;
}

/// How far the row leaves its chord, mm: a bent tape, or a stiff rule and a little lens.
double bow_mm(const DecidedLine& decided) {
    const RulerLine& line = *decided.line;
    const double a = line.marks.front().at_u;
    const double b = line.marks.back().at_u;
    const auto across = [&](double u) { return line.frame.base(u) + line.foot_w(u); };
    const double middle = 0.5 * (a + b);
    return std::abs(across(middle) - 0.5 * (across(a) + across(b))) / line.pitch_px *
           decided.reading.mm_per_index;
}

Refusal refusal_of(const RulerDecision& decision, const Survey& seen) {
    if (decision.divisions_seen)
        return {"scale", "unit-undecided", "the ruler's marks fit more than one division",
                "tell its unit with --ruler mm or --ruler inch, or take the photo nearer so that whole "
                "centimetres or inches with their shorter marks are seen"};
    for (const RulerLine& line : seen.lines)
        if (line.marks.size() >= unreadable_marks &&
            std::max(line.residual_px, line.lean_px) <= unreadable_scatter * line.pitch_px)
            return {"scale", "ruler-unreadable",
                    "there is an even row of marks, but their long and short marks cannot be told apart",
                    "take the photo nearer and sharper, without glare on the ruler, so that whole "
                    "centimetres or inches are seen"};
    return {
        "scale", "no-ruler", "no ruler or tape was found in the photo",
        "lay a ruler flat beside the fabric with its marks in view; if one is there, take the photo nearer, "
        "sharper and without glare on it"};
}

std::string read_as(const RulerLine& line, const GraduationReading& reading) {
    return "row of " + std::to_string(line.marks.size()) + " marks read as " + reading.name;
}

Refusal other_unit() {
    return {"scale", "unit-conflict", "the ruler's marks clearly count in the other unit than the one told",
            "leave --ruler away, or check which edge of the ruler is seen"};
}

/// Who answers for the object's length, and how far it may be off over the span of the best line.
void set_tolerance(ScaleReference& reference, bool soft) {
    const auto& marks = reference.lines.front().marks;
    const double span_mm = std::abs(marks.back().position_mm - marks.front().position_mm);
    const double error_mm = soft ? class_three_error_mm : class_two_error_mm;
    reference.object_relative_std = error_mm / std::sqrt(3.0) / span_mm;
    reference.object_source = soft ? "1 mm on any length up to 1 m, a soft tape of class III, rectangular "
                                     "(Directive 2014/32/EU, annex X, MI-008)"
                                   : "0.5 mm on any length up to 1 m, a rule of class II, rectangular "
                                     "(Directive 2014/32/EU, annex X, MI-008)";
}

/// Where the ordinary reader decides nothing: a coarse scale that the lines it left open could have, or
/// `refusal`.
Outcome<ScaleReference> coarse_or(const Refusal& refusal, const std::vector<RulerLine>& left_open,
                                  const GreyPyramid& pyramid, const RulerOptions& options) {
    const CoarseScale coarse = read_coarse_scale(pyramid);
    if (!coarse.line) return refusal;
    if (!could_have_scale(left_open, coarse.line->line.pitch_px / coarse.line->reading.mm_per_index))
        return refusal;
    if (options.told_unit && *options.told_unit != coarse.line->reading.unit) return other_unit();
    ScaleReference reference;
    reference.kind = "ruler";
    reference.lines.push_back(mark_line(*coarse.line));
    reference.outline_px = ruler_outline(pyramid, coarse.line->line, coarse.line->reading.mm_per_index);
    set_tolerance(reference, false);
    reference.notes = coarse.notes;
    reference.notes.push_back(read_as(coarse.line->line, coarse.line->reading));
    return reference;
}

}  // namespace

Outcome<ScaleReference> read_ruler(const Photo& photo, const RulerOptions& options) {
    if (photo.grey.empty()) throw std::invalid_argument("read_ruler: the photo is empty");
    const GreyPyramid& pyramid = photo.pyramid;
    Survey seen = survey(pyramid, search_combs(pyramid));
    const RulerDecision decision = decide_graduations(seen.lines, options.told_unit);
    if (decision.lines.empty()) {
        if (options.told_unit && !decide_graduations(seen.lines, std::nullopt).lines.empty())
            return other_unit();
        return coarse_or(refusal_of(decision, seen), seen.lines, pyramid, options);
    }
    auto best = decision.lines.begin();
    if (options.told_unit) {
        best = std::find_if(decision.lines.begin(), decision.lines.end(),
                            [&](const DecidedLine& l) { return l.reading.unit == *options.told_unit; });
        if (best == decision.lines.end()) return other_unit();
    }
    ScaleReference reference;
    reference.kind = "ruler";
    reference.lines.push_back(mark_line(*best));
    for (auto other = decision.lines.begin(); other != decision.lines.end(); ++other)
        if (other != best) reference.lines.push_back(mark_line(*other));
    reference.outline_px = ruler_outline(pyramid, *best->line, best->reading.mm_per_index);
    set_tolerance(reference, bow_mm(*best) > bent_from_mm);
    reference.notes = seen.notes;
    reference.notes.insert(reference.notes.end(), decision.notes.begin(), decision.notes.end());
    for (const DecidedLine& l : decision.lines) reference.notes.push_back(read_as(*l.line, l.reading));
    return reference;
}

}  // namespace ridgetally

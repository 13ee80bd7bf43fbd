#include "scale/comb_track.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

#include "core/median.h"
#include "scale/comb_phasors.h"
#include "scale/index_model.h"

namespace ridgetally {
namespace {

constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr double block_step_pitches = 4.0;
constexpr double block_reach_pitches = 6.0;  // half width of a block: numerals and long marks average out
constexpr double least_coherence = 0.12;     // a comb of thin marks puts 0.3 to 0.6 of its variance there
constexpr double least_amplitude = 1.2;      // grey levels; JPEG and sensor noise average below 0.5
constexpr double stroke_pitches = 0.4;       // half the length over which strokes must be straight
constexpr double faint_share = 0.12;  // of the strongest row's amplitude: the body beside a bright bevel

constexpr double widest_lean = 0.12;          // 7 degrees from the other blocks' lean
constexpr double section_gap_pitches = 14.0;  // three blocks missing: something lies over the marks
constexpr double phase_tolerance = 0.2;       // of a pitch, beyond a gap: the count stays certain

/// Running index of every column as the frame expects it.
std::vector<double> expected_index(const Strip& strip, const StripFrame& frame) {
    std::vector<double> index(static_cast<std::size_t>(strip.grey.cols), 0.0);
    double sum = 0.0;
    for (std::size_t i = 0; i < index.size(); ++i) {
        const double rate = strip.step / frame.pitch(strip.u(static_cast<double>(i)));
        index[i] = sum + 0.5 * rate;
        sum += rate;
    }
    return index;
}

struct Band {
    int top = 0;
    int bottom = -1;
};

/// Rows near w = 0 that are as comb-like as the best of them, which is the middle of the straightest strokes
/// (phases agree from row to row; those of a fringe do not). Coherence decides, not amplitude: a bright
/// bevel under the marks' feet shows the same comb several times stronger than the body does.
Band band_of(const Strip& strip, BlockPhasors& rows, double pitch, const TrackOptions& options) {
    const int middle = static_cast<int>(std::lround(strip.row(0.0)));
    const int reach = static_cast<int>(options.reach_pitches * pitch / strip.step);
    const int last = rows.count() - 1;
    const int from = std::max(0, middle - reach);
    const int to = std::min(last, middle + reach);
    const int half = std::max(1, static_cast<int>(stroke_pitches * pitch / strip.step));
    int best = -1;
    double best_score = 0.0;
    for (int j = from; j <= to; ++j) {
        Phasor sum(0.0, 0.0);
        for (int i = std::max(0, j - half); i <= std::min(last, j + half); ++i) {
            const RowPhasor& row = rows.row(i);
            sum += row.coherence * row.phasor / std::max(row.amplitude, 1e-6);
        }
        if (std::abs(sum) <= best_score) continue;
        best_score = std::abs(sum);
        best = j;
    }
    if (best < 0) return {};
    const auto belongs = [&](int j) {
        return j >= 0 && j <= last && rows.row(j).amplitude >= faint_share * rows.row(best).amplitude &&
               rows.row(j).coherence >= options.band_share * rows.row(best).coherence;
    };
    Band band{best, best};
    while (belongs(band.top - 1) || belongs(band.top - 2)) --band.top;
    while (belongs(band.bottom + 1) || belongs(band.bottom + 2)) ++band.bottom;
    return band;
}

/// Block from the rows of its band; coherence 0 where there is no comb.
CombBlock block_of(const Strip& strip, BlockPhasors& rows, int centre, double pitch,
                   const TrackOptions& options) {
    CombBlock block;
    block.u = strip.u(centre);
    const Band band = band_of(strip, rows, pitch, options);
    if (band.bottom - band.top < 2) return block;
    Phasor turn(0.0, 0.0);
    for (int j = band.top; j < band.bottom; ++j)
        turn += std::conj(rows.row(j).phasor) * rows.row(j + 1).phasor;
    const double per_row = std::arg(turn);
    const double middle = strip.row(0.0);
    Phasor sum(0.0, 0.0);
    double apart = 0.0;
    double coherence = 0.0;
    for (int j = band.top; j <= band.bottom; ++j) {
        const RowPhasor& row = rows.row(j);
        sum += row.phasor * std::polar(1.0, -per_row * (j - middle));
        coherence += row.coherence;
        apart += row.amplitude;
    }
    const double count = band.bottom - band.top + 1.0;
    block.amplitude = 2.0 * std::abs(sum) / count;
    // Rows out of step with each other are no strokes, however even each of them is.
    const double in_step = std::abs(sum) / std::max(apart, 1e-9);
    block.coherence = coherence / count * in_step * in_step;
    block.top_w = strip.w(band.top - 0.5);
    block.bottom_w = strip.w(band.bottom + 0.5);
    // With the phasor's phase -2 pi (index shift), a positive turn per row means that marks move to smaller
    // u.
    block.slant = -per_row / two_pi * pitch / strip.step;
    block.index = std::arg(-sum) / two_pi;  // dark strokes where the fundamental is lowest
    return block;
}

std::vector<std::vector<CombBlock>> sections_of(const std::vector<CombBlock>& seen, const StripFrame& frame) {
    std::vector<std::vector<CombBlock>> sections;
    for (const CombBlock& block : seen) {
        const bool apart = sections.empty() ||
                           block.u - sections.back().back().u > section_gap_pitches * frame.pitch(block.u);
        if (apart) sections.emplace_back();
        sections.back().push_back(block);
    }
    return sections;
}

/// Marks converge under perspective: their lean follows a straight line, where enough blocks tell it.
int lean_coefficients(const CombTrack& track) { return track.blocks.size() >= 5 ? 2 : 1; }

/// Joins `other` to the `known` blocks, on whichever side it lies, if their spacing foretells its phase.
bool join(std::vector<CombBlock>& known, std::vector<CombBlock> other) {
    if (known.size() < 4) return false;
    std::vector<Sample> samples;
    for (const CombBlock& b : known) samples.push_back({b.index, b.u, b.weight()});
    const IndexModel model = fit_index_model(samples, 0.02);
    const bool behind = other.front().u > known.back().u;
    const CombBlock& nearest = behind ? other.front() : other.back();
    const double gap = behind ? nearest.u - known.back().u : known.front().u - nearest.u;
    if (gap > known.back().u - known.front().u) return false;
    const double foretold = model.index(nearest.u);
    const double shift = std::round(foretold - nearest.index);
    if (std::abs(foretold - nearest.index - shift) > phase_tolerance) return false;
    for (CombBlock& b : other) b.index += shift;
    known.insert(behind ? known.end() : known.begin(), other.begin(), other.end());
    return true;
}

/// The longest stretch with all those whose count can be tied to it; the others are left out.
std::vector<CombBlock> join_sections(std::vector<CombBlock> seen, const StripFrame& frame) {
    auto sections = sections_of(seen, frame);
    if (sections.size() < 2) return seen;
    const auto longest = std::max_element(sections.begin(), sections.end(),
                                          [](const auto& a, const auto& b) { return a.size() < b.size(); });
    const auto at = static_cast<std::size_t>(longest - sections.begin());
    std::vector<CombBlock> known = *longest;
    for (std::size_t i = at + 1; i < sections.size(); ++i) join(known, sections[i]);
    for (std::size_t i = at; i-- > 0;) join(known, sections[i]);
    return known;
}

std::size_t column_of(const Strip& strip, const CombBlock& block) {
    return static_cast<std::size_t>(std::lround(strip.column(block.u)));
}

/// One block every few pitches along the strip, each on its own, on all cores.
std::vector<CombBlock> blocks_along(const Strip& strip, const StripFrame& frame,
                                    const std::vector<double>& index, const TrackOptions& options) {
    std::vector<int> centres;
    double column = 0.0;
    double longest = 0.0;
    while (column < strip.grey.cols) {
        centres.push_back(static_cast<int>(column));
        const double pitch = frame.pitch(strip.u(centres.back()));
        longest = std::max(longest, pitch);
        column += std::max(1.0, block_step_pitches * pitch / strip.step);
    }
    const CombWaves waves(index, longest / strip.step);
    std::vector<CombBlock> blocks(centres.size());
    cv::parallel_for_({0, static_cast<int>(centres.size())}, [&](const cv::Range& range) {
        for (auto i = static_cast<std::size_t>(range.start); i < static_cast<std::size_t>(range.end); ++i) {
            const double pitch = frame.pitch(strip.u(centres[i]));
            const int reach = static_cast<int>(block_reach_pitches * pitch / strip.step);
            BlockPhasors rows(strip, waves, centres[i], reach, pitch / strip.step);
            blocks[i] = block_of(strip, rows, centres[i], pitch, options);
        }
    });
    return blocks;
}

}  // namespace

CombTrack track_comb(const Strip& strip, const StripFrame& frame, const TrackOptions& options) {
    const auto index = expected_index(strip, frame);
    std::vector<CombBlock> seen;
    for (CombBlock& block : blocks_along(strip, frame, index, options)) {
        if (block.coherence < least_coherence || block.amplitude < least_amplitude) continue;
        // The carrier's own phase at this column comes on top of the block's phase against it.
        const double carrier = index[column_of(strip, block)];
        block.index += carrier;
        if (!seen.empty()) {
            const double before = index[column_of(strip, seen.back())];
            block.index += std::round(carrier - before + seen.back().index - block.index);
        }
        seen.push_back(block);
    }
    return {join_sections(std::move(seen), frame)};
}

StripFrame frame_along(const StripFrame& frame, const CombTrack& track) {
    StripFrame next = frame;
    const double pitch = frame.pitch(0.5 * (frame.u_begin + frame.u_end));
    const bool is_long = track.blocks.size() >= 8;
    const int slant_degree = lean_coefficients(track) - 1;
    std::vector<Sample> slant;
    for (const CombBlock& b : track.blocks) slant.push_back({b.u, frame.slant(b.u) + b.slant, b.weight()});
    next.slant = robust_polynomial(slant, slant_degree, 0.003);
    std::vector<Sample> base;
    std::vector<Sample> root;
    const CombBlock* before = nullptr;
    for (const CombBlock& b : track.blocks) {
        // Marks are parallel: a block that leans otherwise is a fringe beside them.
        if (std::abs(frame.slant(b.u) + b.slant - next.slant(b.u)) > widest_lean) continue;
        const double middle = 0.5 * (b.top_w + b.bottom_w);
        base.push_back({b.u + middle * frame.slant(b.u), frame.base(b.u) + middle, b.weight()});
        if (before != nullptr && b.index - before->index > 0.5) {
            const double turns = b.index - before->index;
            root.push_back({0.5 * (before->u + b.u), std::sqrt((b.u - before->u) / turns), turns});
        }
        before = &b;
    }
    if (base.size() >= 3) next.base = robust_polynomial(base, is_long ? 2 : 1, 0.05 * pitch);
    if (root.size() >= 3)
        next.root_pitch = robust_polynomial(root, is_long ? 2 : 1, 0.001 * std::sqrt(pitch));
    return next;
}

double lean_scatter(const CombTrack& track, const StripFrame& frame, const StripFrame& fitted) {
    std::vector<double> off;
    for (const CombBlock& b : track.blocks)
        off.push_back(std::abs(frame.slant(b.u) + b.slant - fitted.slant(b.u)));
    // Few blocks lie near any line through them: the residuals' degrees of freedom.
    const auto count = static_cast<double>(off.size());
    return median_of(off) * std::sqrt(count / std::max(count - lean_coefficients(track), 1.0));
}

}  // namespace ridgetally

#include "scale/ruler_line.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "scale/comb_track.h"
#include "scale/label_spacing.h"
#include "scale/mark_filter.h"

namespace ridgetally {
namespace {

constexpr int passes = 3;               // the third changes nothing visible any more
constexpr double narrow_pitches = 5.0;  // half height of the strip a comb is followed in
constexpr double wide_pitches = 12.0;   // of the strip marks are measured in: half-mm rules have marks of 9
constexpr double look_further_pitches = 40.0;
constexpr std::size_t fewest_blocks = 3;  // 12 pitches
constexpr std::size_t fewest_marks = 12;
constexpr double widest_residual = 0.07;  // of the pitch; the coarsest real rules stay below 0.06
constexpr double least_found = 0.6;
constexpr double finest_pitch_px = 2.3;

struct Followed {
    StripFrame frame;
    std::string rejected;
};

Followed follow_chain(const GreyPyramid& pyramid, const CombChain& chain) {
    const cv::Size size = pyramid.front().size();
    Followed followed{frame_of(chain), ""};
    StripFrame& frame = followed.frame;
    clip_to_picture(frame, size);
    for (int pass = 0; pass < passes; ++pass) {
        const double pitch = frame.pitch(0.5 * (frame.u_begin + frame.u_end));
        const Strip strip = sample_strip(pyramid, frame, -narrow_pitches * pitch, narrow_pitches * pitch);
        const CombTrack track = track_comb(strip, frame);
        if (track.blocks.size() < fewest_blocks) {
            followed.rejected = "the strokes lose their spacing at full resolution";
            return followed;
        }
        frame = frame_along(frame, track);
        frame.u_begin = track.blocks.front().u - look_further_pitches * pitch;
        frame.u_end = track.blocks.back().u + look_further_pitches * pitch;
        clip_to_picture(frame, size);
    }
    return followed;
}

struct Reading {
    Strip strip;
    IndexModel model;
    MarkBand band;
    int first = 0;
    int last = 0;
};

std::optional<Reading> prepare(const GreyPyramid& pyramid, const StripFrame& frame) {
    const double pitch = frame.pitch(0.5 * (frame.u_begin + frame.u_end));
    Reading reading{sample_strip(pyramid, frame, -wide_pitches * pitch, wide_pitches * pitch), {}, {}, 0, 0};
    const CombTrack track = track_comb(reading.strip, frame);
    if (track.blocks.size() < fewest_blocks) return std::nullopt;
    std::vector<Sample> index;
    std::vector<Sample> top;
    std::vector<Sample> bottom;
    for (const CombBlock& block : track.blocks) {
        index.push_back({block.index, block.u, block.amplitude});
        top.push_back({block.u, block.top_w, block.amplitude});
        bottom.push_back({block.u, block.bottom_w, block.amplitude});
    }
    reading.model = fit_index_model(index, 0.02);
    reading.band = {robust_polynomial(top, 1, 0.5), robust_polynomial(bottom, 1, 0.5)};
    const double at_begin = reading.model.index(frame.u_begin);
    const double at_end = reading.model.index(frame.u_end);
    reading.first = static_cast<int>(std::floor(std::min(at_begin, at_end)));
    reading.last = static_cast<int>(std::ceil(std::max(at_begin, at_end)));
    return reading;
}

/// The model with `factor` marks for each of the old ones.
IndexModel refined(IndexModel model, double factor) {
    model.centre *= factor;
    model.half_range *= factor;
    return model;
}

RulerLine measured_line(const StripFrame& frame, const Reading& reading, Polarity polarity, int factor) {
    RulerLine line;
    line.frame = frame;
    line.polarity = polarity;
    IndexModel model = refined(reading.model, factor);
    if (polarity == Polarity::light_on_dark) model.centre -= 0.5 * factor;
    line.marks = measure_marks(reading.strip, model, reading.band, polarity, reading.first * factor,
                               reading.last * factor);
    return line;
}

/// Every n-th index carries a mark and the others do not: the comb was followed n times too fine.
void thin_out(RulerLine& line) {
    for (const int n : {2, 3, 5}) {
        std::array<int, 5> count{};
        for (const MeasuredMark& m : line.marks) ++count[static_cast<std::size_t>(((m.index % n) + n) % n)];
        const auto* most = std::max_element(count.begin(), count.begin() + n);
        const auto total = static_cast<int>(line.marks.size());
        if (*most * 10 < total * 8) continue;
        const int residue = static_cast<int>(most - count.begin());
        std::vector<MeasuredMark> kept;
        for (MeasuredMark m : line.marks) {
            if (((m.index % n) + n) % n != residue) continue;
            m.index = (m.index - residue) / n;
            kept.push_back(m);
        }
        line.marks = std::move(kept);
    }
}

/// Marks between the marks: the comb was followed on its longer marks only. The finest comb of which most
/// marks are there is the rule's.
RulerLine finest_line(const StripFrame& frame, const Reading& reading, Polarity polarity) {
    RulerLine line = measured_line(frame, reading, polarity, 1);
    const double pitch = std::abs(reading.model.spacing(reading.model.centre));
    for (const int n : {5, 2}) {
        if (pitch / n < finest_pitch_px) continue;
        RulerLine finer = measured_line(frame, reading, polarity, n);
        int between = 0;
        for (const MeasuredMark& m : finer.marks) between += m.index % n != 0 ? 1 : 0;
        const double expected = static_cast<double>(line.marks.size()) * (n - 1);
        if (between >= 0.7 * expected && !line.marks.empty()) {
            line = std::move(finer);
            break;
        }
    }
    thin_out(line);
    return line;
}

void weigh(RulerLine& line) {
    keep_true_marks(line);
    if (line.marks.size() < fewest_marks) return;
    std::vector<MarkLength> lengths;
    for (const MeasuredMark& m : line.marks)
        if (!m.cut) lengths.push_back({m.index, line.length_in_pitches(m)});
    line.evidence = weigh_graduations(lengths);
}

std::string fault_of(const RulerLine& line) {
    if (line.marks.size() < fewest_marks) return "too few strokes in step";
    if (line.found_share < least_found) return "too many strokes missing";
    if (line.residual_px > std::max(widest_residual * line.pitch_px, 0.3))
        return "spacing too uneven for a rule";
    return "";
}

double gain_of(const RulerLine& line) {
    if (!fault_of(line).empty() || line.evidence.readings.empty()) return -1.0;
    return line.evidence.readings.front().log_score - line.evidence.flat_score;
}

}  // namespace

LineTrial read_line(const GreyPyramid& pyramid, const CombChain& chain) {
    const Followed followed = follow_chain(pyramid, chain);
    if (!followed.rejected.empty()) return {std::nullopt, followed.rejected};
    const auto reading = prepare(pyramid, followed.frame);
    if (!reading) return {std::nullopt, "the strokes lose their spacing at full resolution"};
    RulerLine dark = finest_line(followed.frame, *reading, Polarity::dark_on_light);
    RulerLine light = finest_line(followed.frame, *reading, Polarity::light_on_dark);
    weigh(dark);
    weigh(light);
    RulerLine& line = gain_of(light) > gain_of(dark) ? light : dark;
    const std::string fault = fault_of(line);
    if (!fault.empty()) return {std::nullopt, fault};
    if (const auto labels = label_spacing(reading->strip, line)) {
        line.label_spacing = labels->indices;
        weigh_labels(line.evidence, *labels);
    }
    return {line, ""};
}

}  // namespace ridgetally

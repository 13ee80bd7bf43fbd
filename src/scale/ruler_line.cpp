#include "scale/ruler_line.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/median.h"
#include "scale/comb_track.h"
#include "scale/mark_filter.h"
#include "scale/numeral_places.h"
#include "scale/row_reading.h"

namespace ridgetally {
namespace {

/// How far from the expected row the comb is looked for, pass by pass: the chain ran inside the marks or
/// close.
constexpr std::array pass_reach_pitches{3.5, 1.5, 1.0};
constexpr double narrow_pitches = 5.0;         // half height of the strip a comb is followed in
constexpr double look_further_pitches = 70.0;  // past a hand or a strip of paper on the ruler
constexpr double widest_lean_scatter = 0.06;   // rules stay below 0.03, most fabric is above 0.08
constexpr double lean_noise_px = 0.4;          // of a block's strokes, end against end
constexpr double wide_band_share =
    0.25;  // of the best row's coherence, where the usual share showed no divisions
constexpr std::size_t fewest_blocks = 3;  // 12 pitches
constexpr std::size_t fewest_marks = 12;
constexpr double widest_residual = 0.07;        // of the pitch; the coarsest real rules stay below 0.06
constexpr double widest_lean_pitches = 0.065;   // tip against foot: rules 0.002 to 0.04, fabric above 0.1
constexpr double widest_lean_px = 0.6;          // or this, where marks are a few pixels long
constexpr double widest_lean_divided_px = 0.8;  // or this, where the order of their lengths leaves no doubt
constexpr double sure_gain_per_mark = 0.7;      // nats over a row of one length
constexpr double sure_explained = 0.95;         // of the marks, the long ones too
constexpr double widest_contrast = 0.75;        // log ratio of neighbours: rules below 0.6
constexpr double least_found = 0.6;

struct Followed {
    StripFrame frame;
    std::string rejected;
};

double band_height(const CombTrack& track) {
    std::vector<double> heights;
    for (const CombBlock& b : track.blocks) heights.push_back(b.bottom_w - b.top_w);
    return std::max(median_of(heights), 1.0);
}

Followed follow_chain(const GreyPyramid& pyramid, const CombChain& chain) {
    const cv::Size size = pyramid.front().size();
    Followed followed{frame_of(chain), ""};
    StripFrame& frame = followed.frame;
    clip_to_picture(frame, size);
    for (const double reach : pass_reach_pitches) {
        const double pitch = frame.pitch(0.5 * (frame.u_begin + frame.u_end));
        const Strip strip = sample_strip(pyramid, frame, -narrow_pitches * pitch, narrow_pitches * pitch);
        const CombTrack track = track_comb(strip, frame, {.reach_pitches = reach});
        if (track.blocks.size() < fewest_blocks) {
            followed.rejected = "the strokes lose their spacing at full resolution";
            return followed;
        }
        const StripFrame fitted = frame_along(frame, track);
        if (lean_scatter(track, frame, fitted) >
            std::max(widest_lean_scatter, lean_noise_px / band_height(track))) {
            followed.rejected = "the strokes are not parallel";
            return followed;
        }
        frame = fitted;
        frame.u_begin = track.blocks.front().u - look_further_pitches * pitch;
        frame.u_end = track.blocks.back().u + look_further_pitches * pitch;
        clip_to_picture(frame, size);
    }
    return followed;
}

void weigh(RulerLine& line) {
    keep_true_marks(line);
    if (line.marks.size() < fewest_marks) return;
    std::vector<MarkLength> lengths;
    for (const MeasuredMark& m : line.marks)
        if (!m.cut) lengths.push_back({m.index, line.length_in_pitches(m)});
    line.evidence = weigh_graduations(lengths, line.pitch_px);
}

RulerLine line_of(const StripFrame& frame, const RowReading& reading, Polarity polarity) {
    RulerLine line;
    line.frame = frame;
    line.polarity = polarity;
    line.marks = finest_marks(reading, polarity);
    weigh(line);
    return line;
}

/// Fine marks beat with the pixels, which tips and feet show differently; nothing but a rule has long and
/// short ones in the order of a graduation all along a row. Of a drawn rule of 2.9 px a mm, read with 0.98 of
/// 275 marks in order and a gain of a nat a mark, the lean scattered by 0.63 px.
double widest_lean(const RulerLine& line) {
    const GraduationEvidence& seen = line.evidence;
    const bool sure = seen.divided() && seen.readings.front().explained >= sure_explained &&
                      seen.readings.front().long_explained >= sure_explained &&
                      seen.readings.front().log_score - seen.flat_score >= sure_gain_per_mark * seen.marks;
    return std::max(widest_lean_pitches * line.pitch_px, sure ? widest_lean_divided_px : widest_lean_px);
}

std::string fault_of(const RulerLine& line) {
    if (line.marks.size() < fewest_marks) return "too few strokes in step";
    if (line.found_share < least_found) return "too many strokes missing";
    if (line.residual_px > std::max(widest_residual * line.pitch_px, 0.3))
        return "spacing too uneven for a rule";
    if (line.lean_px > widest_lean(line)) return "the strokes are not parallel";
    if (line.contrast_scatter > widest_contrast) return "strokes of changing strength";
    return "";
}

/// How well the line reads as a rule. The gaps between marks make an even row too, of one length.
double quality_of(const RulerLine& line) {
    if (!fault_of(line).empty()) return -2e9;
    return line.evidence.divided() ? line.evidence.readings.front().log_score : -1e9;
}

/// The row with its marks dark, or light where those read better. Gaps between marks hardly ever read as
/// divided: of 84 rows on 60 photos those of 22 rows with light marks never did, those of one row with dark
/// marks did, with a score of 11 against 172. So dark marks that do are not looked at the other way.
RulerLine better_polarity(const StripFrame& frame, const RowReading& reading, std::optional<Polarity> like) {
    if (like) return line_of(frame, reading, *like);
    RulerLine dark = line_of(frame, reading, Polarity::dark_on_light);
    if (fault_of(dark).empty() && dark.evidence.divided()) return dark;
    RulerLine light = line_of(frame, reading, Polarity::light_on_dark);
    return quality_of(light) > quality_of(dark) ? light : dark;
}

LineTrial try_reading(const GreyPyramid& pyramid, const StripFrame& frame, const TrackOptions& options,
                      std::optional<Polarity> like) {
    const auto reading = row_reading(pyramid, frame, options);
    if (!reading) return {std::nullopt, "the strokes lose their spacing at full resolution"};
    RulerLine line = better_polarity(frame, *reading, like);
    const std::string fault = fault_of(line);
    if (!fault.empty()) return {std::nullopt, fault};
    weigh_numerals(line.evidence, numeral_places(reading->strip, line), line.marks.front().index,
                   line.marks.back().index);
    return {line, ""};
}

}  // namespace

LineTrial read_line(const GreyPyramid& pyramid, const CombChain& chain, std::optional<Polarity> like) {
    const Followed followed = follow_chain(pyramid, chain);
    if (!followed.rejected.empty()) return {std::nullopt, followed.rejected};
    LineTrial trial = try_reading(pyramid, followed.frame, {}, like);
    if (like || !trial.line || trial.line->evidence.divided()) return trial;
    // An even row of equal strokes: a bevel may have outshone the body, where the long marks are.
    LineTrial wider = try_reading(pyramid, followed.frame, {.band_share = wide_band_share}, like);
    return wider.line && wider.line->evidence.divided() ? wider : trial;
}

}  // namespace ridgetally

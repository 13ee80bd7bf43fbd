#include "scale/row_reading.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ridgetally {
namespace {

constexpr double wide_pitches = 12.0;     // half height of the strip: half-mm rules have marks of 9
constexpr std::size_t fewest_blocks = 3;  // 12 pitches
constexpr double finest_pitch_px = 2.3;   // below, strokes are not resolved (Nyquist: 2)
constexpr double between_share = 0.7;     // of the finer strokes must be there for the finer comb
constexpr double thin_share = 0.8;        // of the strokes on one residue for the thinner one

/// The place of stroke k, where `factor` strokes share a spacing of the row's model.
ExpectedMark expected_mark(const RowReading& reading, Polarity polarity, int factor, int k) {
    const double shift = polarity == Polarity::light_on_dark ? 0.5 : 0.0;
    const double at = static_cast<double>(k) / factor + shift;
    return {k, reading.position(at), std::abs(reading.model.spacing(at)) / factor};
}

std::vector<MeasuredMark> marks_of(const RowReading& reading, Polarity polarity, int factor) {
    std::vector<ExpectedMark> expected;
    for (int k = reading.first * factor; k <= reading.last * factor; ++k)
        expected.push_back(expected_mark(reading, polarity, factor, k));
    return measure_marks(reading.strip, expected, reading.band, polarity);
}

/// Whether there are n - 1 strokes between most neighbours among the marks: those are the longer ones of a
/// finer row. Ends as soon as that is sure either way.
bool has_strokes_between(const RowReading& reading, Polarity polarity, const std::vector<MeasuredMark>& marks,
                         int n) {
    const auto needed =
        static_cast<std::ptrdiff_t>(std::ceil(between_share * static_cast<double>(marks.size()) * (n - 1)));
    std::ptrdiff_t found = 0;
    auto left = static_cast<std::ptrdiff_t>(marks.size() - 1) * (n - 1);
    for (std::size_t i = 0; i + 1 < marks.size() && found < needed && found + left >= needed; ++i) {
        left -= n - 1;
        if (marks[i + 1].index != marks[i].index + 1) continue;
        std::vector<ExpectedMark> between;
        for (int j = 1; j < n; ++j)
            between.push_back(expected_mark(reading, polarity, n, marks[i].index * n + j));
        found += std::ssize(measure_marks(reading.strip, between, reading.band, polarity));
    }
    return found >= needed;
}

int residue_of(int index, int n) { return ((index % n) + n) % n; }

void thin_out(std::vector<MeasuredMark>& marks) {
    for (const int n : {2, 3, 5}) {
        std::array<int, 5> count{};
        for (const MeasuredMark& m : marks) ++count[static_cast<std::size_t>(residue_of(m.index, n))];
        const auto* most = std::max_element(count.begin(), count.begin() + n);
        if (*most < thin_share * static_cast<double>(marks.size())) continue;
        const int residue = static_cast<int>(most - count.begin());
        std::vector<MeasuredMark> kept;
        for (MeasuredMark m : marks) {
            if (residue_of(m.index, n) != residue) continue;
            m.index = (m.index - residue) / n;
            kept.push_back(m);
        }
        marks = std::move(kept);
    }
}

}  // namespace

double RowReading::position(double index) const {
    const auto after = std::lower_bound(leaning.begin(), leaning.end(), index,
                                        [](const Sample& s, double k) { return s.x < k; });
    double off = 0.0;
    if (after == leaning.begin())
        off = leaning.front().y;
    else if (after == leaning.end())
        off = leaning.back().y;
    else {
        const Sample& before = *(after - 1);
        off = before.y + (index - before.x) / (after->x - before.x) * (after->y - before.y);
    }
    return model.position(index) + off;
}

std::optional<RowReading> row_reading(const GreyPyramid& pyramid, const StripFrame& frame,
                                      const TrackOptions& options) {
    const double pitch = frame.pitch(0.5 * (frame.u_begin + frame.u_end));
    RowReading reading;
    reading.strip = sample_strip(pyramid, frame, -wide_pitches * pitch, wide_pitches * pitch);
    const CombTrack track = track_comb(reading.strip, frame, options);
    if (track.blocks.size() < fewest_blocks) return std::nullopt;
    std::vector<Sample> index;
    std::vector<Sample> top;
    std::vector<Sample> bottom;
    for (const CombBlock& block : track.blocks) {
        index.push_back({block.index, block.u, block.weight()});
        top.push_back({block.u, block.top_w, block.weight()});
        bottom.push_back({block.u, block.bottom_w, block.weight()});
    }
    reading.model = fit_index_model(index, 0.02);
    for (const Sample& s : index) reading.leaning.push_back({s.x, s.y - reading.model.position(s.x), 1.0});
    reading.band = {robust_polynomial(top, 1, 0.5), robust_polynomial(bottom, 1, 0.5)};
    reading.first = static_cast<int>(std::floor(reading.model.index(frame.u_begin)));
    reading.last = static_cast<int>(std::ceil(reading.model.index(frame.u_end)));
    return reading;
}

std::vector<MeasuredMark> finest_marks(const RowReading& reading, Polarity polarity) {
    auto marks = marks_of(reading, polarity, 1);
    const double pitch = std::abs(reading.model.spacing(reading.model.centre));
    for (const int n : {5, 2}) {
        if (pitch / n < finest_pitch_px || marks.empty()) continue;
        if (!has_strokes_between(reading, polarity, marks, n)) continue;
        marks = marks_of(reading, polarity, n);
        break;
    }
    thin_out(marks);
    return marks;
}

}  // namespace ridgetally

#include "recogniser/scan.h"

#include <cmath>

namespace ridgetally {
namespace {

constexpr double fields_from_tile = 0.5;
// What the network was trained to read, in tile pixels; with a margin, since it fades out gently.
constexpr double least_pitch_px = 7.0;
constexpr double most_pitch_px = 72.0;
// Training turned the patches by up to 24 degrees; stitch columns lean by up to 0.3 stitches a row.
constexpr double most_row_tilt_rad = 0.6;
constexpr double least_seen = 0.04;  // of the tile

double quality(const Wave& wave) { return std::sqrt(wave.length * wave.concentration); }

/// Pitches and row direction in tile pixels from the two waves; score 0 where they do not make a fabric.
void interpret(const Wave& stitch, const Wave& row, Glimpse& glimpse) {
    const double row_frequency = std::hypot(row.frequency.x, row.frequency.y);
    if (row_frequency < 1e-4) return;
    const cv::Point2d along(-row.frequency.y / row_frequency, row.frequency.x / row_frequency);
    const double stitch_frequency = stitch.frequency.dot(along);
    if (stitch_frequency < 1e-4) return;
    const double tilt = std::atan2(along.y, along.x);
    const double stitch_px = 1.0 / (stitch_frequency * fields_from_tile);
    const double row_px = 1.0 / (row_frequency * fields_from_tile);
    if (std::abs(tilt) > most_row_tilt_rad) return;
    if (stitch_px < least_pitch_px || stitch_px > most_pitch_px) return;
    if (row_px < least_pitch_px || row_px > 1.6 * most_pitch_px) return;
    glimpse.stitch_pitch_px = stitch_px / glimpse.frame.tile_from_picture;
    glimpse.row_pitch_px = row_px / glimpse.frame.tile_from_picture;
    glimpse.row_direction_rad = glimpse.frame.direction_rad + tilt;
    glimpse.stitch_score = quality(stitch);
    glimpse.row_score = quality(row);
    glimpse.score = std::sqrt(glimpse.stitch_score * glimpse.row_score);
}

}  // namespace

TileReading read_tile(const Recogniser& recogniser, const cv::Mat& unit_grey, const cv::Mat& mask,
                      const TileFrame& frame, Sight sight) {
    const Tile tile = cut_tile(unit_grey, mask, frame);
    TileReading out;
    out.glimpse.frame = frame;
    out.weight = tile.seen;
    if (cv::mean(tile.seen)[0] < least_seen) return out;
    out.fields = recogniser.run(tile.picture, sight);
    out.weight = tile.seen.mul(out.fields.fabric);
    out.glimpse.fabric = out.weight.dot(tile.seen) / cv::sum(tile.seen)[0];
    out.glimpse.kinds = kinds_of(out.fields.kinds, out.weight);
    interpret(strongest_wave(out.fields.stitch, tile.seen), strongest_wave(out.fields.row, tile.seen),
              out.glimpse);
    return out;
}

std::vector<Glimpse> scan(const Recogniser& recogniser, const cv::Mat& unit_grey, const cv::Mat& mask,
                          const std::vector<TileFrame>& frames) {
    // A tile a core: the engine gains less from two cores on one small tile.
    std::vector<Glimpse> seen(frames.size());
    cv::parallel_for_({0, static_cast<int>(frames.size())}, [&](const cv::Range& range) {
        for (auto i = static_cast<std::size_t>(range.start); i < static_cast<std::size_t>(range.end); ++i)
            seen[i] = read_tile(recogniser, unit_grey, mask, frames[i], Sight::scout).glimpse;
    });
    std::erase_if(seen, [](const Glimpse& glimpse) { return glimpse.score <= 0.0; });
    return seen;
}

}  // namespace ridgetally

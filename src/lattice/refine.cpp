#include "lattice/refine.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <optional>
#include <utility>

#include "core/median.h"
#include "lattice/texture.h"

namespace ridgetally {
namespace {

/// Windows of the demodulation in periods. Along the axis it must see the period and reject its neighbours
/// x1/2 and x2 (sigma 0.7 period passes 9 % of half the frequency and 0.006 % of twice it: exp(-2 pi^2
/// sigma^2 df^2)); across, a stitch window stays within a row since every row may start elsewhere, and a row
/// window averages over some stitches.
constexpr double sigma_along = 0.7;
constexpr double stitch_sigma_across_rows = 0.35;
constexpr double row_sigma_across_stitches = 1.6;

/// Uneven tension of hand work between neighbouring stitches: 8 % (design figure; hand work 10-20 % at
/// worst).
constexpr double stitch_scatter = 0.08;

/// Set on 140 of our own renders: of pitches with a coherence below 0.6 one in five lay beyond twice the
/// uncertainty that left slips out, of those above 0.7 one in thirty.
constexpr double slip_free_coherence = 0.7;
constexpr double slips_at_no_coherence = 1.0;

/// Fields of all channels along both axes.
void demodulate_all(const std::vector<cv::Mat>& channels, const cv::Mat& mask, double stitch_px,
                    double period_px, PitchFit& fit) {
    fit.stitch_fields.resize(channels.size());
    fit.row_fields.resize(channels.size());
    const DemodulateOptions along_rows{sigma_along * stitch_px, stitch_sigma_across_rows * period_px};
    const DemodulateOptions across_rows{sigma_along * period_px, row_sigma_across_stitches * stitch_px};
    cv::parallel_for_({0, 2 * static_cast<int>(channels.size())}, [&](const cv::Range& range) {
        for (auto i = static_cast<std::size_t>(range.start); i < static_cast<std::size_t>(range.end); ++i) {
            const cv::Mat& channel = channels[i / 2];
            if (i % 2 == 0)
                fit.stitch_fields[i / 2] = demodulate(channel, mask, Axis::x, stitch_px, along_rows);
            else
                fit.row_fields[i / 2] = demodulate(channel, mask, Axis::y, period_px, across_rows);
        }
    });
}

/// How many blocks a region is cut into.
struct BlockGrid {
    int columns = 1;
    int rows = 1;
};

/// Pitches of the blocks that are fabric for half of their area and more, their scatter with them: the median
/// absolute deviation of the logarithms, so that a block on a flaw does not widen all; zero from fewer than
/// three blocks.
std::vector<BlockPitch> block_pitches(const std::vector<PhaseField>& fields, const cv::Rect& region,
                                      const cv::Mat& mask, const BlockGrid& grid) {
    const Axis axis = fields.front().axis;
    const auto kind = axis == Axis::x ? BlockPitch::Kind::stitch : BlockPitch::Kind::row;
    std::vector<std::optional<BlockPitch>> of_grid(static_cast<std::size_t>(grid.rows * grid.columns));
    cv::parallel_for_({0, grid.rows * grid.columns}, [&](const cv::Range& range) {
        for (int k = range.start; k < range.end; ++k) {
            const cv::Rect block(region.x + region.width * (k % grid.columns) / grid.columns,
                                 region.y + region.height * (k / grid.columns) / grid.rows,
                                 region.width / grid.columns, region.height / grid.rows);
            if (cv::countNonZero(mask(block)) < block.area() / 2) continue;
            const double length = axis == Axis::x ? block.width : block.height;
            const PhasePitch pitch = pitch_of(fields, block, 0.6 * length);
            if (pitch.coherence <= 0.0) continue;
            const RectifiedPoint middle{block.x + 0.5 * (block.width - 1),
                                        block.y + 0.5 * (block.height - 1)};
            of_grid[static_cast<std::size_t>(k)] = BlockPitch{kind, middle, pitch.pitch_px, 0.0};
        }
    });
    std::vector<BlockPitch> blocks;
    for (const auto& block : of_grid)
        if (block) blocks.push_back(*block);
    if (blocks.size() < 3) return blocks;
    std::vector<double> logs;
    for (const auto& block : blocks) logs.push_back(std::log(block.pitch_px));
    const double centre = median_of(logs);
    for (double& value : logs) value = std::abs(value - centre);
    const double scatter = mad_to_std * median_of(logs);
    for (auto& block : blocks) block.relative_std = scatter;
    return blocks;
}

/// Scatter of the pitch between blocks of the region, as the standard uncertainty of the mean over all of it.
/// Zero from fewer than three blocks.
double scatter_of(const std::vector<BlockPitch>& blocks) {
    if (blocks.size() < 3) return 0.0;
    return blocks.front().relative_std / std::sqrt(static_cast<double>(blocks.size()));
}

/// The blocks from which the fabric's evenness is judged: three periods each way and more, since over fewer
/// the ends' own unevenness drowns what a plane does to the pitch; at most six a side, which is enough for a
/// slope. Not swept.
std::vector<BlockPitch> even_blocks(const PitchFit& fit, const cv::Rect& region, const cv::Mat& mask) {
    const auto count = [](double length_px, double period_px) {
        return std::clamp(static_cast<int>(length_px / (3.0 * period_px)), 1, 6);
    };
    const BlockGrid grid{count(region.width, fit.stitch.pitch_px), count(region.height, fit.row.pitch_px)};
    auto blocks = block_pitches(fit.stitch_fields, region, mask, grid);
    const auto rows = block_pitches(fit.row_fields, region, mask, grid);
    blocks.insert(blocks.end(), rows.begin(), rows.end());
    return blocks;
}

Measured pitch_with_budget(const std::vector<PhaseField>& fields, const PhasePitch& whole,
                           const cv::Rect& region, const cv::Mat& mask, double cells_across,
                           const std::string& name) {
    const Axis axis = fields.front().axis;
    const double length = axis == Axis::x ? region.width : region.height;
    const double periods = length / whole.pitch_px;
    const double across = std::max(1.0, cells_across);
    const int along_blocks = std::clamp(static_cast<int>(periods / 4.0), 1, 4);
    const int across_blocks = std::clamp(static_cast<int>(across / 3.0), 1, 4);
    const BlockGrid grid =
        axis == Axis::x ? BlockGrid{along_blocks, across_blocks} : BlockGrid{across_blocks, along_blocks};
    const double scatter = scatter_of(block_pitches(fields, region, mask, grid));
    // A count of n uneven periods carries scatter / n from its two ends, whatever was seen; rows of stitches
    // average.
    const double uneven = stitch_scatter * std::sqrt(2.0) / periods / std::sqrt(across);
    // Phases that agree badly at the longest lag leave the pitch loose by that phase's noise.
    const double turns =
        std::sqrt(std::max(0.0, -2.0 * std::log(std::max(1e-3, whole.coherence)))) / (2.0 * CV_PI);
    const double phase =
        turns * whole.pitch_px / std::max(whole.lag_px, whole.pitch_px) / std::sqrt(std::max(1.0, across));
    // Below some coherence the phase slips by whole turns here and there, and a slip is one period in all of
    // them.
    const double slips =
        slips_at_no_coherence * std::max(0.0, 1.0 - whole.coherence / slip_free_coherence) / periods;
    return measured(whole.pitch_px, {{name + " scatter between parts", scatter},
                                     {name + " uneven", uneven},
                                     {name + " phase", phase},
                                     {name + " phase slips", slips}});
}

PartReading part(const char* name, const PitchFit& fit, const cv::Rect& region) {
    return {name, pitch_of(fit.stitch_fields, region, 0.6 * region.width).pitch_px,
            pitch_of(fit.row_fields, region, 0.6 * region.height).pitch_px};
}

}  // namespace

PitchFit fit_pitches(const FabricPatch& patch, double stitch_pitch_px, double period_px) {
    TextureOptions texture;
    texture.window_px = 1.5 * std::max(stitch_pitch_px, period_px);
    texture.gradient_px = std::max(0.8, 0.07 * stitch_pitch_px);
    PitchFit fit;
    demodulate_all(texture_channels(patch.grey, patch.mask, texture), patch.mask, stitch_pitch_px, period_px,
                   fit);
    const cv::Rect region = cv::boundingRect(patch.mask);
    double row_frequency = 0.0;  // along the rows
    cv::parallel_for_({0, 3}, [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            if (i == 0) fit.stitch = pitch_of(fit.stitch_fields, region, 0.6 * region.width);
            if (i == 1) fit.row = pitch_of(fit.row_fields, region, 0.6 * region.height);
            if (i == 2) row_frequency = cross_frequency(fit.row_fields, region, 0.5 * region.width);
        }
    });
    fit.row_tilt_rad = -std::atan(row_frequency * fit.row.pitch_px);
    return fit;
}

RefinedReading refined(PitchFit fit, const FabricPatch& patch) {
    const cv::Rect region = cv::boundingRect(patch.mask);
    RefinedReading reading;
    reading.stitch_coherence = fit.stitch.coherence;
    reading.row_coherence = fit.row.coherence;
    reading.stitch_pitch_px = pitch_with_budget(fit.stitch_fields, fit.stitch, region, patch.mask,
                                                region.height / fit.row.pitch_px, "stitch");
    // Neighbouring stitches of a row rise and fall together, so a row counts as about a quarter of its
    // stitches.
    reading.period_px = pitch_with_budget(fit.row_fields, fit.row, region, patch.mask,
                                          region.width / fit.stitch.pitch_px / 4.0, "row");
    reading.blocks = even_blocks(fit, region, patch.mask);

    const cv::Size half(region.width / 2, region.height / 2);
    reading.parts = {part("left half", fit, {region.tl(), cv::Size(half.width, region.height)}),
                     part("right half", fit,
                          {region.tl() + cv::Point(half.width, 0), cv::Size(half.width, region.height)}),
                     part("upper half", fit, {region.tl(), cv::Size(region.width, half.height)}),
                     part("lower half", fit,
                          {region.tl() + cv::Point(0, half.height), cv::Size(region.width, half.height)})};
    reading.stitch_fields = std::move(fit.stitch_fields);
    reading.row_fields = std::move(fit.row_fields);
    return reading;
}

}  // namespace ridgetally

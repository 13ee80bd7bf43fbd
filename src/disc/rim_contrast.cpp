#include "disc/rim_contrast.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <vector>

namespace ridgetally {
namespace {

/// Bins of 8 levels: wider than a camera's noise (1 to 4 levels), narrower than yarn from table.
constexpr int bins = 32;
constexpr std::size_t sectors = 12;
/// Share of "anything": a colour, or a contrast, that was seen nowhere says nothing.
constexpr float colour_floor = 2e-5F;
constexpr float busy_floor = 1e-2F;
/// About two strands of fine yarn on a strip of one row a photo pixel. Not swept.
constexpr int busy_window_px = 7;
/// A shadow's share of what lies beside the rim. This and the next three were chosen on 60 drawn crowns, not
/// swept: with the known heights taken out, their diameters were off by 0.84 per cent (root mean square)
/// without shadows, 0.43 with them.
constexpr float shade_share = 0.5F;
/// What a pixel speaks for that is the table's colour in a shadow: it may be a shadow beside the disc or one
/// in a hole of it. A little against the disc, so that the rim goes by what is yarn.
constexpr float shadow_evidence = -0.5F;
/// Of the shares above: less than that is none of the table's colours.
constexpr float least_table_share = 1e-3F;
/// A colour that is so much more of the disc (a logarithm) than holes could make it is the yarn's, though the
/// table may have it too. Of 1.2, 1.8, 2.4 and 3.0 on fourteen drawn crowns whose edge was lost at one of
/// them, 1.8 lost none.
constexpr float surely_disc = 1.8F;
/// Of the disc, as much must be of no such colour for the rest to be seen through holes.
constexpr double least_clear_part = 0.4;

/// Counts of one feature, spread over neighbouring bins.
class Histogram {
  public:
    explicit Histogram(std::vector<int> strides)
        : strides_(std::move(strides)), counts_(static_cast<std::size_t>(strides_.back() * bins), 0.0F) {}

    void add(std::size_t bin, float count = 1.0F) {
        counts_[bin] += count;
        total_ += count;
    }
    void forget(std::size_t bin) {
        total_ -= counts_[bin];
        counts_[bin] = 0.0F;
    }
    void add(const Histogram& other, float weight) {
        for (std::size_t i = 0; i < counts_.size(); ++i) counts_[i] += weight * other.counts_[i];
        total_ += weight * other.total_;
    }
    /// 1 2 1 along each axis.
    void smooth() {
        for (const int stride : strides_) {
            const auto step = static_cast<std::size_t>(stride);
            std::vector<float> out(counts_.size());
            for (std::size_t i = 0; i < counts_.size(); ++i) {
                const int at = static_cast<int>(i) / stride % bins;
                const float before = at > 0 ? counts_[i - step] : counts_[i];
                const float after = at + 1 < bins ? counts_[i + step] : counts_[i];
                out[i] = 0.25F * before + 0.5F * counts_[i] + 0.25F * after;
            }
            counts_.swap(out);
        }
    }
    [[nodiscard]] float share(std::size_t bin, float floor) const {
        return (total_ > 0.0F ? counts_[bin] / total_ : 0.0F) + floor;
    }
    [[nodiscard]] const std::vector<float>& counts() const { return counts_; }

  private:
    std::vector<int> strides_;
    std::vector<float> counts_;
    float total_ = 0.0F;
};

/// Bin of every pixel of the strip: of its colour, or of how busy its neighbourhood is.
using Bins = cv::Mat_<int>;

/// Brightness by 8 levels, what is of a colour by 4 to either side of grey: a grey yarn and the shadow on a
/// table that is a little blue or brown differ by 6 levels and more. Stronger colours than 64 levels count as
/// that.
constexpr int luma_step = 8;
constexpr int chroma_step = 4;
constexpr double grey_level = 128.0;

std::size_t colour_bin(double luma, double red, double blue) {
    const auto chroma = [](double value) {
        return std::clamp(static_cast<int>((value - grey_level) / chroma_step + bins / 2.0), 0, bins - 1);
    };
    const int bright = std::clamp(static_cast<int>(luma / luma_step), 0, bins - 1);
    return static_cast<std::size_t>((bright * bins + chroma(red)) * bins + chroma(blue));
}

Bins colour_bins(const cv::Mat& ycc) {
    Bins result(ycc.size());
    for (int y = 0; y < ycc.rows; ++y) {
        const auto* from = ycc.ptr<cv::Vec3b>(y);
        int* to = result.ptr<int>(y);
        for (int x = 0; x < ycc.cols; ++x)
            to[x] = static_cast<int>(colour_bin(from[x][0], from[x][1], from[x][2]));
    }
    return result;
}

/// Three bins an octave of the brightness's standard deviation over a window, from half a grey level on.
Bins busy_bins(const cv::Mat& ycc) {
    cv::Mat luma;
    cv::extractChannel(ycc, luma, 0);
    luma.convertTo(luma, CV_32F);
    const cv::Size window(busy_window_px, busy_window_px);
    cv::Mat mean;
    cv::Mat square;
    cv::blur(luma, mean, window, {-1, -1}, cv::BORDER_REFLECT_101);
    cv::blur(luma.mul(luma), square, window, {-1, -1}, cv::BORDER_REFLECT_101);
    const cv::Mat whole = square - mean.mul(mean);
    // At the rim a window sees both sides and is busy on either: the evener of the window just outside and
    // the one just inside speaks for the pixel.
    constexpr int shift = busy_window_px / 2;
    cv::Mat framed;
    cv::copyMakeBorder(whole, framed, shift, shift, 0, 0, cv::BORDER_REPLICATE);
    const cv::Mat outwards = framed.rowRange(0, whole.rows);
    const cv::Mat inwards = framed.rowRange(2 * shift, 2 * shift + whole.rows);
    const cv::Mat variance = cv::min(outwards, inwards);
    Bins result(ycc.size());
    for (int y = 0; y < ycc.rows; ++y) {
        const auto* from = variance.ptr<float>(y);
        int* to = result.ptr<int>(y);
        for (int x = 0; x < ycc.cols; ++x) {
            const float octaves = 0.5F * std::log2(std::max(from[x], 0.25F)) + 1.0F;
            to[x] = std::clamp(static_cast<int>(3.0F * octaves), 0, bins - 1);
        }
    }
    return result;
}

/// The same colours in a shadow: as coded, light taken away scales all channels alike (a power law, as that
/// of IEC 61966-2-1 is but for its darkest end), so brightness falls and what is of a colour falls with it.
/// Even shares of what a lamp's shadow leaves of the brightness as coded, down to a third beside the yarn.
Histogram shaded(const Histogram& lit) {
    constexpr std::array levels{0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.33};
    Histogram result({1, bins, bins * bins});
    const auto chroma_of = [](int bin) { return (bin - bins / 2 + 0.5) * chroma_step; };
    for (std::size_t bin = 0; bin < lit.counts().size(); ++bin) {
        const float count = lit.counts()[bin];
        if (count <= 0.0F) continue;
        const double luma = (static_cast<int>(bin) / (bins * bins) + 0.5) * luma_step;
        const double red = chroma_of(static_cast<int>(bin) / bins % bins);
        const double blue = chroma_of(static_cast<int>(bin) % bins);
        for (const double level : levels)
            result.add(colour_bin(level * luma, grey_level + level * red, grey_level + level * blue),
                       count / static_cast<float>(levels.size()));
    }
    return result;
}

/// Counts of a feature inside the disc, and outside sector by sector.
struct Learned {
    Histogram disc;
    std::vector<Histogram> ground;
};

std::size_t sector_of(int x, int columns) {
    return static_cast<std::size_t>(x) * sectors / static_cast<std::size_t>(columns);
}

/// A tail or a loop beside the disc is of its yarn: what is so much more of the disc than of all that lies
/// outside (a logarithm) is not learned as ground.
constexpr float strayed = 2.0F;

template <typename What>
void each_pixel(const Bins& feature, const cv::Mat& mask, const What& what) {
    for (int y = 0; y < feature.rows; ++y) {
        const int* bin = feature[y];
        const auto* marked = mask.ptr<uchar>(y);
        for (int x = 0; x < feature.cols; ++x) {
            if (marked[x] != 0) what(static_cast<std::size_t>(bin[x]), x);
        }
    }
}

Learned learn(const Bins& feature, const std::vector<int>& strides, const cv::Mat& inside,
              const cv::Mat& outside) {
    Learned learned{Histogram(strides), std::vector<Histogram>(sectors, Histogram(strides))};
    Histogram all(strides);
    std::vector<Histogram> seen(sectors, Histogram(strides));
    each_pixel(feature, inside, [&](std::size_t bin, int) { learned.disc.add(bin); });
    each_pixel(feature, outside, [&](std::size_t bin, int x) {
        all.add(bin);
        seen[sector_of(x, feature.cols)].add(bin);
    });
    learned.disc.smooth();
    const Histogram counted = all;
    all.smooth();
    for (std::size_t bin = 0; bin < counted.counts().size(); ++bin) {
        if (counted.counts()[bin] <= 0.0F) continue;
        const float floor = 0.1F * all.share(bin, 0.0F);
        if (std::log(learned.disc.share(bin, floor) / all.share(bin, floor)) < strayed) continue;
        for (auto& sector : seen) sector.forget(bin);
    }
    for (std::size_t s = 0; s < sectors; ++s) {
        learned.ground[s].add(seen[s], 1.0F);
        learned.ground[s].add(seen[(s + 1) % sectors], 0.5F);
        learned.ground[s].add(seen[(s + sectors - 1) % sectors], 0.5F);
        learned.ground[s].smooth();
    }
    return learned;
}

float clipped(float ratio) { return std::clamp(ratio, -most_evidence, most_evidence); }

/// Bins that the strip has.
std::vector<std::size_t> bins_of(const Bins& feature, std::size_t count) {
    std::vector<bool> there(count, false);
    for (int y = 0; y < feature.rows; ++y) {
        for (int x = 0; x < feature.cols; ++x) there[static_cast<std::size_t>(feature(y, x))] = true;
    }
    std::vector<std::size_t> result;
    for (std::size_t bin = 0; bin < count; ++bin) {
        if (there[bin]) result.push_back(bin);
    }
    return result;
}

/// A value a bin, sector by sector.
using SectorTable = std::vector<std::vector<float>>;

cv::Mat looked_up(const Bins& feature, const SectorTable& table) {
    cv::Mat result(feature.size(), CV_32F);
    for (int y = 0; y < feature.rows; ++y) {
        auto* out = result.ptr<float>(y);
        const int* bin = feature[y];
        for (int x = 0; x < feature.cols; ++x)
            out[x] = table[sector_of(x, feature.cols)][static_cast<std::size_t>(bin[x])];
    }
    return result;
}

cv::Mat busy_evidence(const cv::Mat& strip_ycc, const cv::Mat& inside, const cv::Mat& outside) {
    const Bins feature = busy_bins(strip_ycc);
    const Learned learned = learn(feature, {1}, inside, outside);
    SectorTable ratio(sectors, std::vector<float>(bins));
    for (std::size_t s = 0; s < sectors; ++s) {
        for (std::size_t bin = 0; bin < bins; ++bin) {
            const float ground = learned.ground[s].share(bin, busy_floor);
            ratio[s][bin] = clipped(std::log(learned.disc.share(bin, busy_floor) / ground));
        }
    }
    return looked_up(feature, ratio);
}

/// What colour says of every pixel of a strip.
struct ColourEvidence {
    cv::Mat ratios;  ///< CV_32FC1
    cv::Mat table;   ///< as RimContrast::table
};

ColourEvidence colour_evidence(const cv::Mat& strip_ycc, const cv::Mat& inside, const cv::Mat& outside) {
    constexpr std::size_t all_bins = std::size_t{bins} * bins * bins;
    const Bins feature = colour_bins(strip_ycc);
    const Learned learned = learn(feature, {1, bins, bins * bins}, inside, outside);
    const auto there = bins_of(feature, all_bins);
    SectorTable ratio(sectors, std::vector<float>(all_bins));
    SectorTable table(sectors, std::vector<float>(all_bins));
    for (std::size_t s = 0; s < sectors; ++s) {
        Histogram dark = shaded(learned.ground[s]);
        dark.smooth();
        for (const std::size_t bin : there) {
            const float disc = learned.disc.share(bin, colour_floor);
            const float lit = learned.ground[s].share(bin, 0.0F);
            const float any = lit + shade_share * dark.share(bin, 0.0F);
            const float in_light = std::log(disc / (lit + colour_floor));
            const float in_shade = std::log(disc / (any + colour_floor));
            const bool may_be_table = any >= least_table_share && in_shade < surely_disc;
            table[s][bin] = may_be_table ? 1.0F : 0.0F;
            ratio[s][bin] = clipped(std::min(in_light, std::max(in_shade, shadow_evidence)));
        }
    }
    ColourEvidence result;
    result.ratios = looked_up(feature, ratio);
    result.table = looked_up(feature, table) > 0.0F;
    const bool tells =
        cv::countNonZero(inside & result.table) < (1.0 - least_clear_part) * cv::countNonZero(inside);
    if (!tells) result.table.setTo(0);
    // What the table may be speaks for the disc nowhere.
    cv::Mat most;
    cv::min(result.ratios, shadow_evidence, most);
    most.copyTo(result.ratios, result.table);
    return result;
}

/// How clearly colour tells the disc's pixels that it speaks for: 0 to 1.
double told_by(const cv::Mat& ratios, const cv::Mat& inside) {
    double sum = 0.0;
    int count = 0;
    for (int y = 0; y < ratios.rows; ++y) {
        for (int x = 0; x < ratios.cols; ++x) {
            const float ratio = ratios.at<float>(y, x);
            if (inside.at<uchar>(y, x) == 0 || ratio <= 0.0F) continue;
            sum += std::tanh(0.5 * ratio);
            ++count;
        }
    }
    return count > 0 ? sum / count : 0.0;
}

}  // namespace

RimContrast rim_contrast(const cv::Mat& strip_ycc, const cv::Mat& inside, const cv::Mat& outside) {
    const ColourEvidence colour = colour_evidence(strip_ycc, inside, outside);
    const double left = 1.0 - told_by(colour.ratios, inside);
    return {colour.ratios + left * left * busy_evidence(strip_ycc, inside, outside), colour.table};
}

}  // namespace ridgetally

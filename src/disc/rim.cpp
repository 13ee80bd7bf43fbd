#include "disc/rim.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "core/median.h"

namespace ridgetally {
namespace {

/// Evidence for a rim at each row: what lies below it counts for the disc, what lies above against it.
cv::Mat gain_of(const cv::Mat& contrast) {
    cv::Mat gain(contrast.size(), CV_32F);
    for (int x = 0; x < contrast.cols; ++x) {
        float sum = 0.0F;
        for (int y = contrast.rows - 1; y >= 0; --y) {
            sum += contrast.at<float>(y, x);
            gain.at<float>(y, x) = sum;
        }
    }
    return gain;
}

struct Path {
    std::vector<int> rows;
    float gain = 0.0F;
};

/// Best path over all columns in the order given; the first row is `start` where it is set.
Path best_path(const cv::Mat& gain, std::optional<int> start, float price) {
    constexpr int reach = 6;
    const int rows = gain.rows;
    std::vector<float> best(static_cast<std::size_t>(rows));
    cv::Mat from(gain.size(), CV_16S);
    for (int y = 0; y < rows; ++y) {
        const bool open = !start || *start == y;
        best[static_cast<std::size_t>(y)] = open ? gain.at<float>(y, 0) : -1e30F;
    }
    std::vector<float> next(best.size());
    for (int x = 1; x < gain.cols; ++x) {
        for (int y = 0; y < rows; ++y) {
            float top = -1e30F;
            int origin = y;
            for (int d = -reach; d <= reach; ++d) {
                const int before = y + d;
                if (before < 0 || before >= rows) continue;
                const float value = best[static_cast<std::size_t>(before)] - price * std::abs(d);
                if (value > top) {
                    top = value;
                    origin = before;
                }
            }
            next[static_cast<std::size_t>(y)] = top + gain.at<float>(y, x);
            from.at<short>(y, x) = static_cast<short>(origin);
        }
        best.swap(next);
    }
    int end = 0;
    if (start) {
        end = *start;
    } else {
        end = static_cast<int>(std::max_element(best.begin(), best.end()) - best.begin());
    }
    Path path{std::vector<int>(static_cast<std::size_t>(gain.cols)), best[static_cast<std::size_t>(end)]};
    for (int x = gain.cols - 1; x >= 0; --x) {
        path.rows[static_cast<std::size_t>(x)] = end;
        if (x > 0) end = from.at<short>(end, x);
    }
    return path;
}

cv::Vec3d mean_colour(const cv::Mat& strip, int x, int from, int to) {
    cv::Vec3d sum;
    int count = 0;
    for (int y = std::max(0, from); y <= std::min(strip.rows - 1, to); ++y) {
        for (int dx = -1; dx <= 1; ++dx) {
            sum += strip.at<cv::Vec3b>(y, (x + dx + strip.cols) % strip.cols);
            ++count;
        }
    }
    return count > 0 ? sum / count : sum;
}

/// Where the profile along a column passes half-way from what lies inside to what lies outside an edge.
double half_way(const cv::Mat& strip, int x, int edge) {
    const double first = edge - 0.5;  // the upper border of the first pixel of the disc
    const cv::Vec3d disc = mean_colour(strip, x, edge + 1, edge + 2);
    const cv::Vec3d ground = mean_colour(strip, x, edge - 3, edge - 2);
    const cv::Vec3d step = ground - disc;
    const double length = step.dot(step);
    if (length < 16.0) return first;  // no edge to speak of: four grey levels
    const auto part = [&](int y) { return (mean_colour(strip, x, y, y) - disc).dot(step) / length; };
    double best = 1e300;
    double at = first;
    constexpr int reach = 2;  // a shadow's border may lie next to it
    for (int y = std::max(1, edge - reach); y <= std::min(strip.rows - 1, edge + reach); ++y) {
        const double inner = part(y);
        const double outer = part(y - 1);
        if (inner > 0.5 || outer <= 0.5) continue;
        const double crossing = y - (0.5 - inner) / (outer - inner);
        if (std::abs(crossing - first) < best) {
            best = std::abs(crossing - first);
            at = crossing;
        }
    }
    return at;
}

}  // namespace

std::vector<int> closed_rim(const cv::Mat& contrast, double step_price) {
    if (contrast.empty() || contrast.type() != CV_32FC1)
        throw std::invalid_argument("closed_rim: a CV_32FC1 strip is needed");
    const cv::Mat gain = gain_of(contrast);
    const auto price = static_cast<float>(step_price);
    // A first round finds a place where the line surely passes, half-way from the open ends; the second one
    // starts and ends there.
    const Path open = best_path(gain, std::nullopt, price);
    const int half = gain.cols / 2;
    cv::Mat turned(gain.size(), CV_32F);
    gain(cv::Rect(half, 0, gain.cols - half, gain.rows))
        .copyTo(turned(cv::Rect(0, 0, gain.cols - half, gain.rows)));
    gain(cv::Rect(0, 0, half, gain.rows)).copyTo(turned(cv::Rect(gain.cols - half, 0, half, gain.rows)));
    const Path closed = best_path(turned, open.rows[static_cast<std::size_t>(half)], price);
    std::vector<int> rim(closed.rows.size());
    for (int x = 0; x < gain.cols; ++x)
        rim[static_cast<std::size_t>((x + half) % gain.cols)] = closed.rows[static_cast<std::size_t>(x)];
    return rim;
}

std::vector<double> half_way_rim(const cv::Mat& strip_ycc, const std::vector<int>& rim) {
    std::vector<double> result(rim.size());
    for (std::size_t i = 0; i < rim.size(); ++i) {
        const int x = static_cast<int>(i);
        result[i] = half_way(strip_ycc, x, rim[i]);
    }
    return result;
}

std::vector<double> closed_median(const std::vector<double>& values, const std::vector<bool>& counts,
                                  int reach) {
    if (values.size() != counts.size()) throw std::invalid_argument("closed_median: sizes differ");
    const int n = static_cast<int>(values.size());
    std::vector<double> result(values);
    std::vector<double> near;
    for (int i = 0; i < n; ++i) {
        near.clear();
        for (int d = -reach; d <= reach; ++d) {
            const auto k = static_cast<std::size_t>((i + d % n + n) % n);
            if (counts[k]) near.push_back(values[k]);
        }
        if (near.empty()) continue;
        result[static_cast<std::size_t>(i)] = median_of(near);
    }
    return result;
}

}  // namespace ridgetally

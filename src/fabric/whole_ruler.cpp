#include "fabric/whole_ruler.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <opencv2/imgproc.hpp>
#include <vector>

#include "fabric/colour_histogram.h"
#include "image/masks.h"

namespace ridgetally {
namespace {

/// The found half of a ruler carried the marks, so the other half is no wider, but for its bevel.
constexpr double widths_beyond = 1.2;
/// Nats: a colour at least this much more common on the ruler than elsewhere belongs to it. Not swept.
constexpr float least_evidence = 2.0F;

/// Where the rest of the ruler may lie.
cv::Mat neighbourhood(const cv::Mat& found) {
    std::vector<cv::Point> inside;
    cv::findNonZero(found, inside);
    const cv::RotatedRect box = cv::minAreaRect(inside);
    cv::Mat distance_px;
    cv::distanceTransform(~found, distance_px, cv::DIST_L2, cv::DIST_MASK_3);
    return distance_px <= widths_beyond * std::min(box.size.width, box.size.height);
}

/// What is the ruler's beyond doubt: the rim of the found part may show a little of what the ruler lies on,
/// and that must not be learned as its colour.
cv::Mat inner_part(const cv::Mat& found) {
    constexpr int rim_px = 2;
    cv::Mat inner;
    cv::erode(found, inner, round_element(rim_px));
    return cv::countNonZero(inner) > 0 ? inner : found;
}

/// `found` and every place near it with the ruler's colours.
cv::Mat alike(const cv::Mat& ycc, const cv::Mat& found, const cv::Mat& near) {
    ColourHistogram ruler;
    ColourHistogram others;
    const cv::Mat sure = inner_part(found);
    for (int y = 0; y < ycc.rows; ++y) {
        for (int x = 0; x < ycc.cols; ++x) {
            if (sure.at<uchar>(y, x) != 0) ruler.add(ycc.at<cv::Vec3b>(y, x), 1.0F);
            if (near.at<uchar>(y, x) == 0) others.add(ycc.at<cv::Vec3b>(y, x), 1.0F);
        }
    }
    ruler.finish();
    others.finish();
    cv::Mat result = found.clone();
    for (int y = 0; y < ycc.rows; ++y) {
        for (int x = 0; x < ycc.cols; ++x) {
            const auto& colour = ycc.at<cv::Vec3b>(y, x);
            if (near.at<uchar>(y, x) != 0 &&
                ruler.log_density(colour) - others.log_density(colour) > least_evidence)
                result.at<uchar>(y, x) = 255;
        }
    }
    return result;
}

/// The connected parts of `mask` that hold a pixel of `seed`, and the seed.
cv::Mat connected_to(const cv::Mat& seed, const cv::Mat& mask) {
    cv::Mat labels;
    const int count = cv::connectedComponents(mask, labels);
    std::vector<uchar> belongs(static_cast<std::size_t>(count));
    for (int y = 0; y < labels.rows; ++y) {
        for (int x = 0; x < labels.cols; ++x) {
            if (seed.at<uchar>(y, x) != 0) belongs[static_cast<std::size_t>(labels.at<int>(y, x))] = 255;
        }
    }
    belongs[0] = 0;
    cv::Mat whole = seed.clone();
    for (int y = 0; y < labels.rows; ++y) {
        for (int x = 0; x < labels.cols; ++x)
            whole.at<uchar>(y, x) |= belongs[static_cast<std::size_t>(labels.at<int>(y, x))];
    }
    return whole;
}

/// Along a ruler's length, how far something reaches beyond its found part, to the left and to the right of
/// it.
class Reach {
  public:
    /// Of `found`, in the direction of its longer side.
    explicit Reach(const cv::Mat& found) {
        std::vector<cv::Point> inside;
        cv::findNonZero(found, inside);
        cv::Point2f corners[4];
        cv::minAreaRect(inside).points(corners);
        const cv::Point2f a = corners[1] - corners[0];
        const cv::Point2f b = corners[2] - corners[1];
        along_ = a.dot(a) > b.dot(b) ? a / cv::norm(a) : b / cv::norm(b);
        first_ = std::numeric_limits<int>::max();
        int last = std::numeric_limits<int>::min();
        for (const cv::Point& p : inside) {
            first_ = std::min(first_, place(p));
            last = std::max(last, place(p));
        }
        edges_.assign(static_cast<std::size_t>(last - first_) + 1, {no_edge, -no_edge});
        for (const cv::Point& p : inside) {
            Edges& edge = edges_[static_cast<std::size_t>(place(p) - first_)];
            edge.left = std::min(edge.left, across(p));
            edge.right = std::max(edge.right, across(p));
        }
        for (std::size_t i = 1; i < edges_.size(); ++i) {
            if (edges_[i].left > edges_[i].right) edges_[i] = edges_[i - 1];  // no pixel fell there
        }
    }

    /// Takes out of `whole` what reaches further to a side than it does along a quarter of the ruler: a body
    /// is as wide all along, but a clear one has the table's colours in places.
    void cut_back(cv::Mat& whole) const {
        constexpr float bevel_px = 2.0F;
        std::vector<cv::Point> inside;
        cv::findNonZero(whole, inside);
        std::vector<double> left(edges_.size(), 0.0);
        std::vector<double> right(edges_.size(), 0.0);
        const auto at = [&](const cv::Point& p) {
            return static_cast<std::size_t>(
                std::clamp(place(p) - first_, 0, static_cast<int>(edges_.size()) - 1));
        };
        for (const cv::Point& p : inside) {
            const std::size_t i = at(p);
            left[i] = std::max(left[i], static_cast<double>(edges_[i].left - across(p)));
            right[i] = std::max(right[i], static_cast<double>(across(p) - edges_[i].right));
        }
        const double most_left = usual(left) + bevel_px;
        const double most_right = usual(right) + bevel_px;
        for (const cv::Point& p : inside) {
            const Edges& edge = edges_[at(p)];
            if (edge.left - across(p) > most_left || across(p) - edge.right > most_right)
                whole.at<uchar>(p) = 0;
        }
    }

  private:
    /// The upper quartile.
    static double usual(std::vector<double> reach_px) {
        const auto quartile = reach_px.begin() + static_cast<std::ptrdiff_t>(reach_px.size() * 3 / 4);
        std::nth_element(reach_px.begin(), quartile, reach_px.end());
        return *quartile;
    }

    struct Edges {
        float left, right;
    };
    static constexpr float no_edge = 1e9F;

    [[nodiscard]] int place(const cv::Point& p) const {
        return static_cast<int>(std::lround(p.x * along_.x + p.y * along_.y));
    }
    [[nodiscard]] float across(const cv::Point& p) const {
        return static_cast<float>(p.y) * along_.x - static_cast<float>(p.x) * along_.y;
    }

    cv::Point2f along_;
    int first_ = 0;
    std::vector<Edges> edges_;  ///< of the found part, a pixel of its length each
};

}  // namespace

cv::Mat whole_ruler(const cv::Mat& bgr, const cv::Mat& found) {
    if (cv::countNonZero(found) == 0) return found;
    cv::Mat ycc;
    cv::cvtColor(bgr, ycc, cv::COLOR_BGR2YCrCb);
    cv::Mat candidate = alike(ycc, found, neighbourhood(found));
    cv::morphologyEx(candidate, candidate, cv::MORPH_CLOSE, round_element(2));  // over marks and numerals
    cv::morphologyEx(candidate, candidate, cv::MORPH_OPEN,
                     round_element(3));  // cuts what hangs on by a thread
    cv::Mat whole = connected_to(found, candidate);
    Reach(found).cut_back(whole);
    return whole;
}

}  // namespace ridgetally

#include "scale/fine_profile.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ridgetally {
namespace {

// Not swept.
constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr double mask_divisions = 0.1;    // around the divisions' own marks
constexpr double ground_divisions = 0.1;  // reach of the local mean: one fine mark each side
constexpr double slowest = 3.0;           // marks a division looked at
constexpr double fastest = 26.0;
constexpr double well_off_lobes = 1.6;  // from ten: beyond the line's own width

/// Spectrum over the frequencies looked at; a line in it is a `lobe` wide.
template <typename Amplitude>
Spectrum spectrum_of(double lobe, const Amplitude& amplitude) {
    Spectrum s;
    for (double f = slowest; f <= fastest; f += 0.2 * lobe) {
        const double a = amplitude(f);
        if (a > s.peak) {
            s.peak = a;
            s.strongest = f;
        }
        if (std::abs(f - tenths) > well_off_lobes * lobe) s.rival = std::max(s.rival, a);
    }
    return s;
}

}  // namespace

double FineProfile::divisions_per_column() const {
    return std::abs(at.back() - at.front()) / static_cast<double>(at.size() - 1);
}

std::vector<double> places_of(const Strip& strip, const IndexModel& model) {
    std::vector<double> at;
    for (int i = 0; i < strip.grey.cols; ++i) at.push_back(model.index(strip.u(i)));
    return at;
}

FineProfile fine_profile(const cv::Mat1f& grey, const std::vector<double>& at) {
    FineProfile p{cv::Mat1f::zeros(grey.size()), at};
    const int reach = std::max(1, static_cast<int>(std::lround(ground_divisions / p.divisions_per_column())));
    std::vector<char> free;
    for (const double a : at) free.push_back(std::abs(a - std::round(a)) >= mask_divisions ? 1 : 0);
    for (int j = 0; j < grey.rows; ++j)
        for (int i = reach; i + reach < grey.cols; ++i) {
            if (free[static_cast<std::size_t>(i)] == 0) continue;
            double sum = 0.0;
            double weight = 0.0;
            for (int k = i - reach; k <= i + reach; ++k) {
                const double w = (std::abs(k - i) == reach ? 0.5 : 1.0) * free[static_cast<std::size_t>(k)];
                sum += w * static_cast<double>(grey(j, k));
                weight += w;
            }
            p.fine(j, i) = grey(j, i) - static_cast<float>(sum / weight);
        }
    return p;
}

Phasor phasor(const FineProfile& p, double from, double to, double frequency) {
    Phasor sum(0.0, 0.0);
    int count = 0;
    const float* fine = p.fine[0];
    for (std::size_t i = 0; i < p.at.size(); ++i) {
        if (p.at[i] < from || p.at[i] >= to) continue;
        ++count;
        sum += static_cast<double>(fine[i]) * std::polar(1.0, -two_pi * frequency * p.at[i]);
    }
    return count > 0 ? sum * (2.0 / count) : sum;
}

Spectrum spectrum_by_division(const FineProfile& p, int first, int last) {
    return spectrum_of(1.0, [&](double f) {
        double sum = 0.0;
        for (int k = first; k < last; ++k) sum += std::norm(phasor(p, k, k + 1.0, f));
        return std::sqrt(sum / (last - first));
    });
}

Spectrum spectrum_throughout(const FineProfile& p, int first, int last) {
    return spectrum_of(1.0 / (last - first), [&](double f) { return std::abs(phasor(p, first, last, f)); });
}

}  // namespace ridgetally

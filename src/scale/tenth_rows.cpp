#include "scale/tenth_rows.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace ridgetally {
namespace {

// Not swept.
constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr double band_share = 0.45;  // of the strongest row's amplitude
constexpr double turn_rad = 0.7;     // between two rows of the band
constexpr double noise_power = 1.5;  // grey levels squared, of rows in which nothing is seen

}  // namespace

TenthRows::TenthRows(const FineProfile& p, int first, int last)
    : first_(first),
      rows_(static_cast<std::size_t>(p.fine.rows),
            std::vector<Phasor>(static_cast<std::size_t>(last - first))),
      power_(static_cast<std::size_t>(p.fine.rows), 0.0) {
    std::vector<double> count(static_cast<std::size_t>(last - first), 0.0);
    for (std::size_t i = 0; i < p.at.size(); ++i) {
        if (p.at[i] < first || p.at[i] >= last) continue;
        const auto c = static_cast<std::size_t>(p.at[i] - first);
        const Phasor turn = std::polar(1.0, -two_pi * tenths * p.at[i]);
        count[c] += 1.0;
        for (std::size_t j = 0; j < rows_.size(); ++j) {
            const auto fine = static_cast<double>(p.fine(static_cast<int>(j), static_cast<int>(i)));
            rows_[j][c] += fine * turn;
            power_[j] += fine * fine;
        }
    }
    const double all = std::accumulate(count.begin(), count.end(), 0.0);
    for (std::size_t j = 0; j < rows_.size(); ++j) {
        power_[j] /= std::max(all, 1.0);
        for (std::size_t c = 0; c < count.size(); ++c) rows_[j][c] *= 2.0 / std::max(count[c], 1.0);
    }
}

RowRange TenthRows::band() const {
    const int n = static_cast<int>(rows_.size());
    int best = -1;
    double best_score = 0.0;
    for (int j = 1; j + 1 < n; ++j) {
        const double amplitude = std::abs(turn(j - 1)) + std::abs(turn(j));
        const double score = amplitude / std::sqrt(power_[static_cast<std::size_t>(j)] + noise_power);
        if (score > best_score) {
            best_score = score;
            best = j;
        }
    }
    if (best < 0) return {};
    const double least = band_share * band_share * strength(best);
    const auto belongs = [&](int j, const Phasor& to_next) {
        return j >= 0 && j < n && strength(j) >= least && std::abs(std::arg(to_next)) < turn_rad;
    };
    RowRange rows{best, best};
    while (rows.top > 0 && belongs(rows.top - 1, turn(rows.top - 1))) --rows.top;
    while (rows.bottom + 1 < n && belongs(rows.bottom + 1, turn(rows.bottom))) ++rows.bottom;
    return rows;
}

Phasor TenthRows::turn_in(const RowRange& band, int division) const {
    Phasor sum(0.0, 0.0);
    const auto c = static_cast<std::size_t>(division - first_);
    for (int j = band.top; j < band.bottom; ++j)
        sum += std::conj(rows_[static_cast<std::size_t>(j)][c]) * rows_[static_cast<std::size_t>(j) + 1][c];
    return sum;
}

Phasor TenthRows::turn(int row) const {
    Phasor sum(0.0, 0.0);
    const auto& here = rows_[static_cast<std::size_t>(row)];
    const auto& next = rows_[static_cast<std::size_t>(row) + 1];
    for (std::size_t c = 0; c < here.size(); ++c) sum += std::conj(here[c]) * next[c];
    return sum;
}

double TenthRows::strength(int row) const {
    double sum = 0.0;
    for (const Phasor& v : rows_[static_cast<std::size_t>(row)]) sum += std::norm(v);
    return sum;
}

}  // namespace ridgetally

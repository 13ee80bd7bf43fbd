#include "scale/tenths.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/median.h"

namespace ridgetally {
namespace {

constexpr double two_pi = 2.0 * std::numbers::pi;
// None of these was swept.
constexpr double highest_band = 0.85;    // divisions: marks of 8 mm; textures go on
constexpr double lowest_band = 0.1;      // divisions
constexpr double least_amplitude = 1.5;  // grey levels
constexpr double off_peak = 0.25;        // of a lobe: how far the strongest frequency may lie from ten
constexpr double off_peak_alone = 0.35;  // the same where one division alone is divided
constexpr double rival_share = 0.6;      // of the amplitude at ten, for the strongest frequency elsewhere
constexpr double in_step_rad = 0.9;      // at the divisions, from the middle of a mark or of a gap
constexpr double widest_drift = 0.06;    // divisions, of the tenths against the divisions' own marks
constexpr double offset_floor = 0.003;   // divisions
constexpr double even_share = 0.4;       // of the median, for a division that counts as divided
constexpr double least_divided = 0.75;   // of the divisions
constexpr double blank_share = 0.4;  // of the amplitude, for the other divisions where one alone is divided
constexpr int fewest_cells = 4;
constexpr int fewest_cells_alone = 6;

cv::Mat1f mean_row(const Strip& strip, const RowRange& band) {
    cv::Mat1f mean;
    cv::reduce(strip.grey.rowRange(band.top, band.bottom + 1), mean, 0, cv::REDUCE_AVG, CV_32F);
    return mean;
}

/// Amplitude of the tenths in every division, in step with `phase`.
std::vector<double> amplitudes(const FineProfile& p, int first, int last, double phase) {
    std::vector<double> out;
    for (int k = first; k < last; ++k)
        out.push_back((phasor(p, k, k + 1.0, tenths) * std::polar(1.0, -phase)).real());
    return out;
}

/// Where the tenths stand against the model, division by division, in divisions: their phases, unwrapped from
/// the middle outwards. Zero where a mark stands at every division.
std::vector<Sample> offsets_of(const FineProfile& p, int first, int last) {
    std::vector<Sample> offsets;
    for (int k = first; k < last; ++k) {
        const Phasor v = phasor(p, k, k + 1.0, tenths);
        offsets.push_back({k + 0.5, std::arg(v) / two_pi, std::abs(v)});
    }
    const std::size_t middle = offsets.size() / 2;
    const auto follow = [&](std::size_t i, std::size_t from) {
        offsets[i].y = offsets[from].y + std::remainder(offsets[i].y - offsets[from].y, 1.0);
    };
    for (std::size_t i = middle + 1; i < offsets.size(); ++i) follow(i, i - 1);
    for (std::size_t i = middle; i-- > 0;) follow(i, i + 1);
    // Dark marks have the phase pi, light ones zero: both are taken to zero.
    std::vector<double> turns;
    for (const Sample& s : offsets) turns.push_back(s.y);
    const double whole = 0.5 * std::round(2.0 * median_of(turns));
    // A comb moved to greater u has a smaller phase.
    for (Sample& s : offsets) s.y = -(s.y - whole) / tenths;
    return offsets;
}

constexpr const char* not_ten = "the fine strokes are not ten to a division";
constexpr const char* none = "no fine strokes";
constexpr const char* come_and_go = "fine strokes come and go";

/// What the divisions from `first` to `last` show by themselves: the band of their fine marks, and whether it
/// is one of tenths.
FineComb comb_between(const FineProfile& rows, int first, int last) {
    FineComb comb;
    comb.first_cell = first;
    comb.last_cell = last;
    comb.rows = TenthRows(rows, first, last).band();
    const double height = (comb.rows.bottom - comb.rows.top + 1.0) * rows.divisions_per_column();
    if (height > highest_band) comb.fault = "the fine strokes go on beyond any scale's height";
    if (height < lowest_band) comb.fault = none;
    return comb;
}

void expect_tenths(FineComb& comb, const FineProfile& p) {
    const Spectrum each = spectrum_by_division(p, comb.first_cell, comb.last_cell);
    if (std::abs(each.strongest - tenths) > off_peak_alone || each.rival > rival_share * each.peak)
        comb.fault = not_ten;
}

/// Sets strength and polarity from tenths in step throughout.
void measure(FineComb& comb, const Phasor& at_ten) {
    comb.amplitude = std::abs(at_ten);
    comb.light = at_ten.real() > 0.0;
    if (comb.amplitude < least_amplitude) comb.fault = none;
}

/// Every division carries fine marks.
FineComb comb_throughout(const Strip& strip, const FineProfile& rows, int first, int last) {
    FineComb comb = comb_between(rows, first, last);
    if (!comb.fault.empty()) return comb;
    const cv::Mat1f mean = mean_row(strip, comb.rows);
    const FineProfile seen = fine_profile(mean, rows.at);
    expect_tenths(comb, seen);
    if (!comb.fault.empty()) return comb;
    comb.offsets = offsets_of(seen, first, last);
    const Polynomial smooth = robust_polynomial(comb.offsets, 2, offset_floor);
    std::vector<double> at = rows.at;
    for (double& a : at) a -= smooth(a);
    const FineProfile p = fine_profile(mean, at);
    const Phasor at_ten = phasor(p, first, last, tenths);
    measure(comb, at_ten);
    if (!comb.fault.empty()) return comb;
    const Spectrum spectrum = spectrum_throughout(p, first, last);
    if (std::abs(smooth(first) - smooth(last)) > widest_drift ||
        std::abs(spectrum.strongest - tenths) > off_peak / (last - first))
        comb.fault = not_ten;
    if (spectrum.rival > rival_share * comb.amplitude) comb.fault = "the fine strokes are not even";
    const auto cells = amplitudes(p, first, last, std::arg(at_ten));
    const double least = even_share * median_of(cells);
    const auto divided = std::count_if(cells.begin(), cells.end(), [&](double a) { return a > least; });
    if (static_cast<double>(divided) < least_divided * static_cast<double>(cells.size()))
        comb.fault = come_and_go;
    return comb;
}

/// One division alone carries them, of those from `first` to `last`.
FineComb comb_alone(const Strip& strip, const FineProfile& rows, int cell, int first, int last) {
    FineComb comb = comb_between(rows, cell, cell + 1);
    if (!comb.fault.empty()) return comb;
    const FineProfile p = fine_profile(mean_row(strip, comb.rows), rows.at);
    expect_tenths(comb, p);
    if (!comb.fault.empty()) return comb;
    const Phasor at_ten = phasor(p, cell, cell + 1.0, tenths);
    measure(comb, at_ten);
    const double phase = std::abs(std::arg(at_ten));
    if (std::min(phase, std::numbers::pi - phase) > in_step_rad)
        comb.fault = "the fine strokes are out of step with the divisions";
    const auto cells = amplitudes(p, first, last, std::arg(at_ten));
    const auto blank = std::count_if(cells.begin(), cells.end(),
                                     [&](double a) { return std::abs(a) < blank_share * comb.amplitude; });
    const int others = static_cast<int>(cells.size()) - (cell >= first && cell < last ? 1 : 0);
    if (static_cast<int>(blank) < others) comb.fault = come_and_go;
    return comb;
}

}  // namespace

std::vector<Sample> lean_of_tenths(const Strip& strip, const FineProfile& profile, const IndexModel& model,
                                   int first, int last) {
    const TenthRows tenths_seen(profile, first, last);
    const RowRange band = tenths_seen.band();
    std::vector<Sample> leans;
    for (int k = first; k < last; ++k) {
        const Phasor turn = tenths_seen.turn_in(band, k);
        const double marks_apart = std::abs(model.spacing(k + 0.5)) / tenths;
        leans.push_back(
            {model.position(k + 0.5), -std::arg(turn) / two_pi * marks_apart / strip.step, std::abs(turn)});
    }
    return leans;
}

FineComb tenths_of(const Strip& strip, const FineProfile& profile, int first, int last) {
    FineComb all;
    all.fault = "too few divisions";
    if (last - first < fewest_cells) return all;
    all = comb_throughout(strip, profile, first, last);
    if (all.fault.empty() || last - first < fewest_cells_alone) return all;
    // The outer end of the one that is divided may be a line too thin to stand out beside blocks.
    for (const int cell : {first, last - 1, first - 1, last}) {
        FineComb one = comb_alone(strip, profile, cell, first, last);
        if (one.fault.empty()) return one;
    }
    return all;
}

}  // namespace ridgetally

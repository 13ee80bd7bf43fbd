#include "scale/coarse_line.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/median.h"
#include "scale/coarse_divisions.h"
#include "scale/tenths.h"

namespace ridgetally {
namespace {

// None of these was swept.
constexpr double half_height = 2.0;     // of the strip, divisions
constexpr double look_further = 4.0;    // past the ends of the row found, divisions
constexpr double widest_shear = 0.035;  // 2 degrees: the rows' directions were tried at every second one
constexpr double shear_step = 0.005;
constexpr double end_tolerance = 0.03;  // divisions, of the ends of the only one that is divided
// Of the fine marks' amplitude: drawn scales have 1.1 and more, the beat of an even comb 2.3 px apart 0.5.
constexpr double least_contrast_share = 0.8;
constexpr double alias_rad = 0.05;  // from the pixels' rows or columns; a steeper comb's beat leans otherwise
constexpr double alias_px = 0.2;    // of a division's length
constexpr double widest_lean = 0.12;     // of the marks from square to the row, 7 degrees
constexpr double usual_lean = 0.04;      // standard deviation
constexpr double edge_noise_px = 0.4;    // of one end of an edge
constexpr double tenths_noise = 0.02;    // of the lean of one division's fine marks
constexpr double strongest_tilt = 0.42;  // sine of 25 degrees
// A phone's main camera (common practice, no source).
constexpr double least_focal_sides = 0.7;  // of the picture's long side

/// The spacing to ask a strip for so that it has five samples a fine mark, whatever that measures.
double sampling_pitch(double fine_px) {
    constexpr double wide_from_px = 5.0;  // sample_strip takes a fifth of a spacing below, a twelfth above
    return fine_px < wide_from_px ? fine_px : 12.0 / 5.0 * fine_px;
}

StripFrame frame_of(const CoarseRow& row, cv::Size picture) {
    StripFrame frame;
    frame.origin = row.origin;
    frame.tx = std::cos(row.axis_rad);
    frame.ty = std::sin(row.axis_rad);
    frame.root_pitch = Polynomial{0.0, 1.0, {std::sqrt(sampling_pitch(row.pitch_px / tenths))}};
    frame.u_begin = row.at_px.front() - look_further * row.pitch_px;
    frame.u_end = row.at_px.back() + look_further * row.pitch_px;
    clip_to_picture(frame, picture);
    return frame;
}

/// The turn of the axis at which the edges' ends line up best.
double shear_of(const Strip& strip, const cv::Mat1f& edges, const std::vector<double>& places) {
    double best = 0.0;
    double best_power = -1.0;
    for (double shear = -widest_shear; shear <= widest_shear + 1e-9; shear += shear_step) {
        double power = 0.0;
        for (int j = 0; j < edges.rows; ++j) {
            double sum = 0.0;
            for (const double u : places)
                sum += static_cast<double>(edge_strength(
                    edges, j + static_cast<int>(std::lround(shear * u / strip.step)), strip.column(u)));
            power += sum * sum;
        }
        if (power > best_power) {
            best_power = power;
            best = shear;
        }
    }
    return best;
}

/// The divisions by their own edges; or, where all carry fine marks, by those: ten of them tell more than
/// one.
std::vector<Sample> settled_places(const Divisions& d, const FineComb& comb) {
    if (comb.offsets.empty()) return d.places;
    std::vector<Sample> places;
    const auto off = [&](int cell) {
        const int last = static_cast<int>(comb.offsets.size()) - 1;
        return comb.offsets[static_cast<std::size_t>(std::clamp(cell - comb.first_cell, 0, last))].y;
    };
    for (int k = comb.first_cell; k <= comb.last_cell; ++k)
        places.push_back({static_cast<double>(k), d.model.position(k + 0.5 * (off(k - 1) + off(k))), 1.0});
    return places;
}

CoarseLine line_of(const StripFrame& frame, const Strip& strip, const Divisions& d, const FineComb& comb) {
    CoarseLine read;
    RulerLine& line = read.line;
    line.frame = frame;
    line.polarity = comb.light ? Polarity::light_on_dark : Polarity::dark_on_light;
    const double fine_middle = strip.w(0.5 * (comb.rows.top + comb.rows.bottom));
    const double edge_middle = strip.w(0.5 * (d.rows.top + d.rows.bottom));
    read.at_w = comb.offsets.empty() ? edge_middle : fine_middle;
    const double top = strip.w(std::min(comb.rows.top, d.rows.top) - 0.5);
    const double bottom = strip.w(std::max(comb.rows.bottom, d.rows.bottom) + 0.5);
    line.tips_at_greater_w = edge_middle >= fine_middle;
    line.foot_w = Polynomial{0.0, 1.0, {line.tips_at_greater_w ? top : bottom}};
    const auto places = settled_places(d, comb);
    line.model = fit_index_model(places, place_floor_px);
    line.residual_px = residual_of(places, line.model);
    std::vector<double> spacings;
    for (const Sample& s : places) {
        line.marks.push_back({static_cast<int>(s.x), s.y, 0.0, top, bottom, comb.amplitude, false});
        spacings.push_back(std::abs(line.model.spacing(s.x)));
    }
    line.pitch_px = median_of(spacings);
    read.reading.unit = LengthUnit::mm;
    read.reading.mm_per_index = tenths;
    read.reading.name = comb.offsets.empty() ? "cm, one of them divided in ten" : "cm divided in ten";
    return read;
}

/// How many leans count: (sum of weights)^2 over the sum of their squares (Kish, Survey Sampling, 1965).
double counting(const std::vector<Sample>& leans) {
    double sum = 0.0;
    double squares = 0.0;
    for (const Sample& s : leans) {
        sum += s.weight;
        squares += s.weight * s.weight;
    }
    return squares > 0.0 ? sum * sum / squares : 0.0;
}

/// The frame with its marks leaning so much more, as far as leans with this noise tell it apart from none;
/// the lean changes evenly along the row (perspective). False where no camera sees marks lean so.
bool lean_more(StripFrame& frame, const std::vector<Sample>& leans, double noise, double long_side_px) {
    constexpr double floor = 0.01;
    constexpr double fewest_for_change = 4.0;
    const double count = counting(leans);
    if (count < 0.5) return true;
    const Polynomial more = robust_polynomial(leans, count < fewest_for_change ? 0 : 1, floor);
    const double variance = noise * noise / count;
    const double believed = usual_lean * usual_lean / (usual_lean * usual_lean + variance);
    const double most_change = strongest_tilt / (least_focal_sides * long_side_px);
    const double change =
        std::clamp(frame.slant.slope(0.0) + believed * more.slope(0.0), -most_change, most_change);
    const double lean = frame.slant(more.centre) + believed * more(more.centre) - change * more.centre;
    frame.slant = Polynomial{0.0, 1.0, {lean, change}};
    return std::abs(lean) <= widest_lean + 2.0 * std::sqrt(variance);
}

/// Whether a division's ends stand where the others put them: the fine marks of one alone are counted against
/// them. An end beyond all that was seen is where the others put it.
bool ends_in_place(const Divisions& d, int cell, double pitch) {
    const auto in_place = [&](int k) {
        if (k < d.places.front().x || k > d.places.back().x) return true;
        return std::any_of(d.places.begin(), d.places.end(), [&](const Sample& s) {
            return s.x == k && std::abs(s.y - d.model.position(k)) <= end_tolerance * pitch;
        });
    };
    return in_place(cell) && in_place(cell + 1);
}

/// Whether the ten fine marks may be the beat of more with the pixels: n of them to a division of n + 10
/// pixels, in line with the pixels, look like ten (the sampling theorem's alias). Inches are divided in 16
/// or 12.
bool may_be_alias(const StripFrame& frame, const IndexModel& model, const Divisions& d) {
    const double off_grid = std::abs(std::remainder(std::atan2(frame.ty, frame.tx), std::numbers::pi / 2.0));
    if (off_grid > alias_rad) return false;
    for (const double finer : {12.0, 16.0}) {
        const double alike = finer + tenths;
        const auto near = [&](const Sample& s) {
            return std::abs(std::abs(model.spacing(s.x)) - alike) < alias_px;
        };
        if (std::count_if(d.places.begin(), d.places.end(), near) * 2 > static_cast<long>(d.places.size()))
            return true;
    }
    return false;
}

struct Laid {
    StripFrame frame;
    Strip strip;
    cv::Mat1f edges;
    Divisions divisions;

    [[nodiscard]] int first() const { return static_cast<int>(divisions.places.front().x); }
    [[nodiscard]] int last() const { return static_cast<int>(divisions.places.back().x); }
};

/// Samples the frame anew and measures the divisions in it.
void measure(Laid& laid, const GreyPyramid& pyramid, const CoarseRow& row) {
    const double reach = half_height * row.pitch_px;
    laid.strip = sample_strip(pyramid, laid.frame, -reach, reach);
    laid.edges = edges_of(laid.strip, row.pitch_px);
    laid.divisions = divisions_in(laid.strip, laid.edges, row);
}

/// Leans the frame's marks so much more and measures again; the fault is that of the divisions.
void measure_leaning(Laid& laid, const GreyPyramid& pyramid, const CoarseRow& row,
                     const std::vector<Sample>& leans, double noise) {
    const cv::Size picture = pyramid.front().size();
    if (lean_more(laid.frame, leans, noise, std::max(picture.width, picture.height)))
        measure(laid, pyramid, row);
    else
        laid.divisions.fault = "the strokes are not square to their row";
}

FineProfile profile_of(const Laid& laid) {
    return fine_profile(laid.strip.grey, places_of(laid.strip, laid.divisions.model));
}

/// The row as its own edges turn it.
CoarseRow straightened(const GreyPyramid& pyramid, const CoarseRow& row) {
    const double reach = half_height * row.pitch_px;
    const Strip strip = sample_strip(pyramid, frame_of(row, pyramid.front().size()), -reach, reach);
    CoarseRow straight = row;
    straight.axis_rad += std::atan(shear_of(strip, edges_of(strip, row.pitch_px), row.at_px));
    return straight;
}

}  // namespace

CoarseTrial read_coarse_line(const GreyPyramid& pyramid, const CoarseRow& row) {
    const CoarseRow straight = straightened(pyramid, row);
    Laid laid;
    laid.frame = frame_of(straight, pyramid.front().size());
    measure(laid, pyramid, straight);
    if (!laid.divisions.fault.empty()) return {std::nullopt, laid.divisions.fault};
    const double apart = 0.5 * (laid.divisions.rows.bottom - laid.divisions.rows.top + 1) * laid.strip.step;
    measure_leaning(laid, pyramid, straight,
                    lean_of_edges(laid.strip, laid.edges, laid.divisions, row.pitch_px),
                    edge_noise_px / apart);
    if (!laid.divisions.fault.empty()) return {std::nullopt, laid.divisions.fault};
    const FineProfile profile = profile_of(laid);
    FineComb comb = tenths_of(laid.strip, profile, laid.first(), laid.last());
    if (!comb.fault.empty()) {
        measure_leaning(laid, pyramid, straight,
                        lean_of_tenths(laid.strip, profile, laid.divisions.model, laid.first(), laid.last()),
                        tenths_noise);
        if (!laid.divisions.fault.empty()) return {std::nullopt, laid.divisions.fault};
        comb = tenths_of(laid.strip, profile_of(laid), laid.first(), laid.last());
    }
    if (!comb.fault.empty()) return {std::nullopt, comb.fault};
    if (laid.divisions.contrast < least_contrast_share * comb.amplitude)
        return {std::nullopt, "divisions no bolder than the beat of fine strokes with the pixels"};
    if (may_be_alias(laid.frame, laid.divisions.model, laid.divisions))
        return {std::nullopt, "ten fine strokes to a division, or the beat of more with the pixels"};
    if (comb.offsets.empty() && !ends_in_place(laid.divisions, comb.first_cell, row.pitch_px))
        return {std::nullopt, "the divided division is not like the others"};
    return {line_of(laid.frame, laid.strip, laid.divisions, comb), ""};
}

}  // namespace ridgetally

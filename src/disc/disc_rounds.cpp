#include "disc/disc_rounds.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <sstream>

#include "core/stitch.h"
#include "disc/fabric_look.h"
#include "disc/likely_stitches.h"
#include "disc/radial_count.h"
#include "disc/round_count.h"
#include "disc/stitch_count.h"
#include "disc/strip.h"
#include "disc/strip_fields.h"
#include "disc/whole_count.h"

namespace ridgetally {
namespace {

constexpr double turn = 2.0 * std::numbers::pi;
/// Root of stitch width times row height at which stitches are counted, px. Of 20, 24, 28, 32 and 40 on 59
/// rendered crowns: right in 55, 77, 62, 71 and 68 of 100.
constexpr double count_px = 24.0;
/// The part of a round, from its top, in which its stitches are counted (same photos: 0.1 to 0.5 gave 55, 0.2
/// to 0.9 gave 77 of 100).
constexpr double band_from = 0.2;
constexpr double band_to = 0.9;
/// Where the first round stands, in rounds from the centre: half the start
/// ring and what the last round's edge stands over. Six photoreal renders had 0.22 to 0.66, 55 of our own
/// -0.2 to 0.6.
constexpr double ring_rounds = 0.30;
/// Directions that differ by more have lost a round on the way.
constexpr double same_rounds = 0.35;

Refusal no_stitches() {
    return {"disc", "no-stitches", "no rounds of stitches can be seen in the round piece",
            "come nearer, keep the phone steady and let light fall from the side so that the stitches cast "
            "shadows; a plate or a ball of yarn is not counted"};
}

/// Least sureness of the recogniser all the way round. A rope or a ball of yarn shows a few strands here and
/// there that pass for stitches, crochet shows them everywhere: drawn ones had 0.07 to 0.29 at most, 238
/// drawn crowns 0.40 to 0.75 and one that was out of the ordinary 0.30.
constexpr double least_sureness_around = 0.35;

double median_of(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return 0.5 * (values[values.size() / 2] + values[(values.size() - 1) / 2]);
}

struct Followed {
    RadialPath path;
    double row_mm = 0.0;
    double rounds = 0.0;
};

/// Directions where the rim is seen.
std::vector<double> directions_of(const DiscOutline& outline, int count, double first_turn) {
    std::vector<double> result;
    const auto n = static_cast<double>(outline.places.size());
    for (int k = 0; k < count; ++k) {
        double at = first_turn + static_cast<double>(k) / count;
        for (int tries = 0; tries < 8; ++tries, at += 0.03) {
            const double wrapped = at - std::floor(at);
            if (outline.places[static_cast<std::size_t>(wrapped * n)] == RimPlace::edge) {
                result.push_back(wrapped);
                break;
            }
        }
    }
    return result;
}

void forget(StripFields& fields, int column) {
    fields.stitch.col(column).setTo(cv::Scalar::all(0.0));
    fields.row.col(column).setTo(cv::Scalar::all(0.0));
}

/// What the photo does not show says nothing of its stitches: their number there follows from the width of
/// the rest.
void forget_hidden(const DiscOutline& outline, StripFields& fields) {
    const std::size_t places = outline.places.size();
    const auto columns = static_cast<std::size_t>(fields.stitch.cols);
    for (std::size_t x = 0; x < columns; ++x) {
        if (outline.places[x * places / columns] == RimPlace::hidden) forget(fields, static_cast<int>(x));
    }
}

/// Rows of a strip's maps, and the height of a round in them.
struct Band {
    double from = 0.0;
    double to = 0.0;
    double round = 0.0;
};

/// A spiral's last round runs out where the round below, of fewer stitches, is seen in its place: it says
/// nothing there. What the phase of the rounds shows of it: a sixth of a round or more away from where it
/// stands all the way round, as a mean over a fiftieth of a turn. Of a quarter and a sixth the latter counted
/// 14 of 20 drawn crowns right, the former 12.
void forget_other_rounds(const cv::Mat& row_field, const Band& band, ClosedPhase& phase) {
    constexpr int mean_over = 100;
    const auto n = static_cast<int>(phase.size());
    std::vector<std::complex<double>> standing(phase.size());
    std::complex<double> all;
    for (int x = 0; x < n; ++x) {
        for (int y = std::max(0, static_cast<int>(band.from)); y < std::min<double>(row_field.rows, band.to);
             ++y) {
            const auto& z = row_field.at<cv::Vec2f>(y, x);
            standing[static_cast<std::size_t>(x)] +=
                std::complex<double>(z[0], z[1]) * std::polar(1.0, turn * (y - band.from) / band.round);
        }
        all += standing[static_cast<std::size_t>(x)];
    }
    const int reach = std::max(1, n / mean_over);
    for (int x = 0; x < n; ++x) {
        std::complex<double> near;
        for (int d = -reach; d <= reach; ++d) near += standing[static_cast<std::size_t>((x + d + n) % n)];
        if ((near * std::conj(all)).real() < 0.5 * std::abs(near) * std::abs(all))
            phase[static_cast<std::size_t>(x)] = 0.0;
    }
}

/// Of the families that are stitches.
double one_loop_chance(const StripFields& fields) {
    double one_loop = 0.0;
    double all = 0.0;
    for (int k = 0; k < stitch_family_count; ++k) {
        const double chance = fields.family.at(static_cast<std::size_t>(k));
        all += chance;
        if (through_one_loop(static_cast<StitchFamily>(k))) one_loop += chance;
    }
    return all > 0.0 ? one_loop / all : 0.0;
}

class RoundReader {
  public:
    RoundReader(const Recogniser& recogniser, const GreyPyramid& photo, const DiscOutline& outline,
                const RoundScale& scale)
        : recogniser_(recogniser), photo_(photo), outline_(outline) {
        result_.scale = scale;
    }

    bool follow(const DiscRoundsOptions& options) {
        std::vector<Followed> ways = followed(options.directions, 0.05);
        if (!agree(ways)) {
            const auto more = followed(options.directions, 0.05 + 0.5 / options.directions);
            ways.insert(ways.end(), more.begin(), more.end());
        }
        if (ways.empty()) return false;
        std::vector<double> rounds;
        for (const auto& way : ways) rounds.push_back(way.rounds);
        ways_ = std::move(ways);
        describe(median_of(rounds));
        return true;
    }

    /// The number of rounds, from all ways and the stitches of the last round.
    void decide(const DiscRoundsOptions& options) {
        RoundEvidence evidence;
        for (const auto& way : ways_) evidence.readings.push_back(way.rounds);
        evidence.stitches = result_.stitches.front();
        evidence.height_over_width = options.height_over_width;
        result_.rounds = likely_rounds(evidence);
        result_.stitches = with_even_growth(result_.rounds.value, std::move(result_.stitches));
        describe(result_.rounds.value);
    }

    bool count(const DiscRoundsOptions& options) {
        RoundStripOptions strip_options;
        const RoundScale& scale = result_.scale;
        strip_options.px_per_mm = count_px / std::sqrt(scale.stitch_mm * scale.row_mm);
        strip_options.outside_mm = std::min(16.0 / strip_options.px_per_mm, scale.row_mm);
        strip_options.inside_mm = (options.rounds_counted + 0.3) * scale.row_mm;
        const RoundStrip strip = round_strip(photo_, outline_, strip_options);
        StripFields fields = read_strip(recogniser_, strip);
        forget_hidden(outline_, fields);
        const double row = 0.5 * strip.px_per_mm * result_.row_mm;
        const double seen = 1.0 - outline_.part_of(RimPlace::hidden);
        result_.fabric_outside = fabric_outside(outline_, fields);
        result_.one_loop_chance = one_loop_chance(fields);
        result_.sureness = fields.sureness(options.rounds_counted * row) / seen;
        for (int k = 0; k < std::min(options.rounds_counted, rounds_followed()); ++k) {
            const double at = 1.0 - k * result_.row_mm / strip.rim_mm;
            const double expected = turn * strip.rim_mm * at / scale.stitch_mm;
            const Band band{fields.rim_row + (k + band_from) * row, fields.rim_row + (k + band_to) * row,
                            row};
            ClosedPhase phase = phase_along(fields.stitch, band.from, band.to);
            forget_other_rounds(fields.row, band, phase);
            result_.stitches.push_back(likely_stitches(phase, expected, seen));
            if (k == 0) result_.stitch_turns = stitch_places(phase, result_.stitches.front().value);
        }
        return !result_.stitches.empty();
    }

    DiscRounds take() {
        std::ostringstream note;
        note << "disc: stitch " << result_.scale.stitch_mm << " mm, row " << result_.scale.row_mm
             << " mm, sureness " << result_.scale.sureness << ", all round " << result_.sureness
             << "; rounds " << result_.rounds.value << " (chance " << result_.rounds.chance << "), height "
             << result_.row_mm << " mm; through one loop " << result_.one_loop_chance;
        for (const auto& count : result_.stitches)
            note << "; stitches " << count.value << " [" << count.least << ", " << count.most << "] chance "
                 << count.chance;
        result_.notes.push_back(note.str());
        return std::move(result_);
    }

  private:
    [[nodiscard]] std::vector<Followed> followed(int count, double first_turn) const {
        std::vector<Followed> ways;
        for (const double at : directions_of(outline_, count, first_turn)) {
            auto path = radial_path(recogniser_, photo_, outline_, result_.scale, at);
            if (!path) continue;
            const double passed = path->passed.back() - path->passed.front();
            if (passed < 0.5) continue;
            Followed way;
            way.row_mm = (path->radius_mm.front() - path->radius_mm.back()) / passed;
            way.rounds = path->passed.back() + path->radius_mm.back() / way.row_mm - ring_rounds;
            way.path = std::move(*path);
            ways.push_back(std::move(way));
        }
        return ways;
    }

    [[nodiscard]] int rounds_followed() const {
        return static_cast<int>(
            std::lround(0.5 * outline_.area_diameter_mm() / result_.row_mm - ring_rounds));
    }

    static bool agree(const std::vector<Followed>& ways) {
        if (ways.size() < 2) return false;
        const auto [low, high] = std::minmax_element(
            ways.begin(), ways.end(), [](const auto& a, const auto& b) { return a.rounds < b.rounds; });
        return high->rounds - low->rounds < same_rounds;
    }

    /// The ways that passed so many rounds, rounded; the nearest one where none did.
    [[nodiscard]] std::vector<Followed> ways_with(double rounds) const {
        const auto off = [&](const Followed& way) { return std::abs(way.rounds - rounds); };
        std::vector<Followed> near;
        std::copy_if(ways_.begin(), ways_.end(), std::back_inserter(near),
                     [&](const Followed& way) { return off(way) < 0.5; });
        if (near.empty())
            near.push_back(*std::min_element(ways_.begin(), ways_.end(),
                                             [&](const auto& a, const auto& b) { return off(a) < off(b); }));
        return near;
    }

    /// Heights of the rounds, as the ways that passed so many saw them.
    void describe(double rounds) {
        const auto ways = ways_with(rounds);
        std::vector<double> heights;
        for (const auto& way : ways) heights.push_back(way.row_mm);
        result_.row_mm = median_of(heights);
        double scatter = 0.0;
        for (const double h : heights)
            scatter += (h - result_.row_mm) * (h - result_.row_mm) / static_cast<double>(heights.size());
        result_.row_std_mm = std::sqrt(scatter / static_cast<double>(heights.size()));
        // Tops of the rounds as the surest way passes them.
        const auto& surest = std::max_element(ways.begin(), ways.end(), [](const auto& a, const auto& b) {
            return a.path.sureness < b.path.sureness;
        });
        const auto& path = surest->path;
        result_.round_radius_mm = {0.5 * outline_.area_diameter_mm()};
        for (std::size_t i = 1; i < path.passed.size(); ++i) {
            const double whole = std::floor(path.passed[i]);
            if (whole < 1.0 || path.passed[i - 1] >= whole) continue;
            const double f = (whole - path.passed[i - 1]) / (path.passed[i] - path.passed[i - 1]);
            result_.round_radius_mm.push_back(path.radius_mm[i - 1] +
                                              f * (path.radius_mm[i] - path.radius_mm[i - 1]));
        }
    }

    const Recogniser& recogniser_;
    const GreyPyramid& photo_;
    const DiscOutline& outline_;
    std::vector<Followed> ways_;
    DiscRounds result_;
};

}  // namespace

Outcome<DiscRounds> read_rounds(const Recogniser& recogniser, const GreyPyramid& photo,
                                const DiscOutline& outline, const DiscRoundsOptions& options) {
    RoundScaleOptions scale_options;
    scale_options.height_over_width = options.height_over_width;
    const auto scale = find_round_scale(recogniser, photo, outline, scale_options);
    if (!scale) return no_stitches();
    RoundReader reader(recogniser, photo, outline, *scale);
    if (!reader.follow(options)) return no_stitches();
    if (!reader.count(options)) return no_stitches();
    reader.decide(options);
    DiscRounds rounds = reader.take();
    if (rounds.sureness < least_sureness_around) return no_stitches();
    return rounds;
}

}  // namespace ridgetally

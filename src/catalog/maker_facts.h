#pragma once

#include <optional>
#include <string>
#include <vector>

namespace ridgetally {

/// A crochet hook by its shaft. Letters and numbers are names; makers and countries disagree on them.
struct HookSize {
    double mm = 0.0;
    std::optional<std::string> us;          ///< "H-8", as the council's table has it
    std::vector<std::string> us_also_seen;  ///< marks some shops print on this size
    std::vector<std::string> uk_old;        ///< numbers of old UK and Canadian sets
    bool widely_sold = false;
    std::string source;
};

/// A steel (thread) hook by its US number.
struct SteelHook {
    std::string us;
    double mm = 0.0;
    std::string source;
};

/// A range with open ends.
struct OpenRange {
    std::optional<double> low;
    std::optional<double> high;
    std::string source;

    [[nodiscard]] bool holds(double value) const {
        return (!low || value >= *low) && (!high || value <= *high);
    }
};

/// A category of the Standard Yarn Weight System.
struct YarnWeight {
    int category = 0;
    std::string name;
    std::string uk_name;
    OpenRange knit_stitches_4in;  ///< stockinette
    OpenRange needle_mm;
    OpenRange crochet_stitches_4in;  ///< US single crochet
    OpenRange hook_mm;
    OpenRange wraps_per_inch;
    std::optional<OpenRange> yards_per_pound;
    std::string source;
};

/// Head circumference, mm, of 3, 50 and 97 of 100 children.
struct HeadPercentiles {
    double p3_mm = 0.0;
    double p50_mm = 0.0;
    double p97_mm = 0.0;
};

struct ChildHeads {
    int age_months = 0;
    HeadPercentiles boys;
    HeadPercentiles girls;
    std::string source;
};

/// Head circumference of a group of adults, mm.
struct AdultHeads {
    std::string who;
    int count = 0;
    double mean_mm = 0.0;
    double std_mm = 0.0;
    double p5_mm = 0.0;
    double p50_mm = 0.0;
    double p95_mm = 0.0;
    std::string source;
};

/// A name for a range of heads as the trade uses it; no measured heads.
struct TradeSize {
    std::string list;  ///< which of the lists that disagree
    std::string name;
    double head_low_mm = 0.0;
    double head_high_mm = 0.0;
    std::string source;
};

/// One figure and where it comes from.
struct SourcedValue {
    double value = 0.0;
    std::string source;
};

/// What is usual, and the range in which it is found.
struct UsualRange {
    double usual = 0.0;
    double low = 0.0;
    double high = 0.0;
    std::string source;
};

/// A printed rule of how much smaller than the head a hat is: (hat - head) / head.
struct EaseRule {
    std::string who;
    double low = 0.0;
    double high = 0.0;
    std::string source;
};

/// A printed rule of a hat's height from the centre of its crown to its edge: a share of the head, and more.
struct HeightRule {
    std::string name;
    double share_of_head = 0.0;
    double plus_low_mm = 0.0;
    double plus_high_mm = 0.0;
    std::string source;
};

/// Advice where a hat is for a baby or a child.
struct Caution {
    std::string code;
    std::string text;
    std::string source;
};

/// A printed series of gauges of one yarn on several hooks or needles.
struct PublishedResponse {
    std::string what;
    std::vector<double> tools_mm;
    std::vector<double> counts;  ///< stitches over one span, a tool each
    double exponent = 0.0;       ///< stitch width grows as tool^exponent
    std::string source;
};

/// What is known about gauge and hook before the maker has recorded anything.
struct HookPractice {
    UsualRange response;  ///< exponent of stitch width over hook
    std::vector<PublishedResponse> published_responses;
    SourcedValue gauge_repeat;    ///< relative half range of one maker's gauge on hooks of one size
    SourcedValue large_miss;      ///< relative miss above which the hook alone is not the reason
    SourcedValue shaft_limit_mm;  ///< how far a shaft may be off its stamp
};

/// Yarn a stitch eats, from one printed measurement.
struct YarnUse {
    std::string stitch;
    double m_per_100cm2 = 0.0;
    std::string source;
};

/// What is known about how much yarn a piece needs.
struct YarnPractice {
    std::vector<YarnUse> uses;
    SourcedValue mass_spread;  ///< relative half range of the mass of equal swatches of one maker
    UsualRange margin;         ///< to have more than needed
};

/// What is known about hats.
struct HatPractice {
    std::vector<TradeSize> sizes;
    UsualRange ease;  ///< (hat - head) / head
    std::vector<EaseRule> ease_rules;
    std::vector<HeightRule> height_rules;  ///< the first is the one used where nothing is told
    std::vector<Caution> cautions;
};

}  // namespace ridgetally

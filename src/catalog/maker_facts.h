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

/// Hat less head over head.
struct HatEase {
    double usual = 0.0;
    double low = 0.0;
    double high = 0.0;
    std::string source;
};

}  // namespace ridgetally

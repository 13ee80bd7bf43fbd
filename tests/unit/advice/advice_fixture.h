#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "advice/gauge_text.h"
#include "advice/hook_advice.h"
#include "catalog/catalog.h"

namespace ridgetally {

inline const Catalog& real_catalog() {
    static const Catalog loaded = load_catalog(RIDGETALLY_SOURCE_DIR "/models").value();
    return loaded;
}

/// "12.5±0.2 x 15±0.2" over `span_mm`, as made.
inline MadeGauge made(const std::string& text, double span_mm = span_10cm_mm) {
    return made_gauge(parse_gauge(text).value(), span_mm);
}

/// "13x16" over `span_mm`, as wanted.
inline PatternGauge wanted(const std::string& text, double span_mm = span_10cm_mm) {
    return pattern_gauge(parse_gauge(text).value(), span_mm);
}

inline bool has_reason(const std::vector<Reason>& reasons, const std::string& code) {
    return std::any_of(reasons.begin(), reasons.end(), [&](const Reason& r) { return r.code == code; });
}

}  // namespace ridgetally

#include "report/yarn_document.h"

#include "report/figures.h"
#include "yarns/documents.h"

namespace ridgetally {
namespace {

Document head() { return {{"schema", yarns_schema}}; }

void add_amounts(Document& document, const Yarn& yarn) {
    if (const auto grams = grams_left(yarn)) document["grams_left"] = rounded(*grams);
    if (const auto metres = metres_left(yarn)) document["metres_left"] = rounded(*metres);
}

Document gauge_document(const HookGauge& gauge) {
    Document document = Document::object();
    if (gauge.kind.hook_mm) document["hook_mm"] = *gauge.kind.hook_mm;
    if (gauge.kind.stitch) document["stitch"] = key_of(*gauge.kind.stitch);
    if (gauge.kind.worked) document["worked"] = key_of(*gauge.kind.worked);
    if (gauge.kind.state) document["state"] = key_of(*gauge.kind.state);
    document["stitches_per_10cm"] = measured_document(gauge.stitches_per_10cm);
    if (gauge.rows_per_10cm) document["rows_per_10cm"] = measured_document(*gauge.rows_per_10cm);
    if (gauge.mass_per_area_g_m2) document["mass_per_area_g_m2"] = rounded(*gauge.mass_per_area_g_m2);
    document["numbers"] = gauge.numbers;
    return document;
}

}  // namespace

Document stock_document(const std::vector<StockLine>& stock) {
    Document document = head();
    document["yarns"] = Document::array();
    for (const auto& [yarn, measurements] : stock) {
        Document entry = yarn_document(yarn);
        add_amounts(entry, yarn);
        entry["measured"] = measurements;
        document["yarns"].push_back(std::move(entry));
    }
    return document;
}

Document yarn_view_document(const YarnView& view) {
    Document entry = yarn_document(view.yarn);
    add_amounts(entry, view.yarn);
    entry["gauge_by_hook"] = Document::array();
    for (const auto& gauge : gauge_by_hook(view.measurements))
        entry["gauge_by_hook"].push_back(gauge_document(gauge));
    entry["measurements"] = Document::array();
    for (const auto& stored : view.measurements)
        entry["measurements"].push_back(measurement_document(stored));
    Document document = head();
    document["yarns"] = Document::array({std::move(entry)});
    return document;
}

Document matches_document(const std::vector<Match>& matches) {
    Document document = head();
    document["matches"] = Document::array();
    for (const auto& match : matches) {
        Document entry = {{"name", match.yarn.name}};
        entry["fit"] = word_of(match.fit);
        entry["size_error"] = rounded(match.size_error);
        entry.update(gauge_document(match.gauge));
        if (match.yarn.balls) entry["balls"] = *match.yarn.balls;
        add_amounts(entry, match.yarn);
        if (match.balls_needed) entry["balls_needed"] = rounded(*match.balls_needed);
        if (match.enough == Sufficiency::yes || match.enough == Sufficiency::no)
            entry["enough"] = match.enough == Sufficiency::yes;
        document["matches"].push_back(std::move(entry));
    }
    return document;
}

Document check_document(const RecordCheck& check) {
    Document document = head();
    document["yarns"] = check.yarns;
    document["measurements"] = check.measurements;
    document["removed"] = check.removed;
    document["faults"] = check.faults;
    document["notes"] = check.notes;
    return document;
}

}  // namespace ridgetally

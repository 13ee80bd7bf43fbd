#include "yarns/exchange_json.h"

#include "yarns/documents.h"
#include "yarns/exchange.h"
#include "yarns/fault.h"
#include "yarns/gauge_rows.h"
#include "yarns/sql/rows.h"

namespace ridgetally {
namespace {

Refusal bad(const std::string& what) {
    return {record_stage, "bad-document", what, "give a file that this program exported"};
}

/// The refusal with the place of the entry in front.
Refusal at_entry(Refusal refusal, const std::string& where) {
    refusal.message = where + ": " + refusal.message;
    return refusal;
}

Outcome<IncomingYarn> incoming_from(const YarnDocument& document) {
    auto yarn = yarn_from(document);
    if (!yarn) return yarn.refusal();
    IncomingYarn incoming{yarn->name, [yarn = *yarn](const std::optional<Yarn>&) { return yarn; }, {}};
    const auto list = document.find("measurements");
    if (list == document.end()) return incoming;
    if (!list->is_array()) return bad("measurements: expected a list");
    for (std::size_t i = 0; i < list->size(); ++i) {
        auto stored = measurement_from((*list)[i]);
        if (!stored) return at_entry(stored.refusal(), "measurement " + std::to_string(i + 1));
        incoming.measurements.push_back(std::move(stored).value());
    }
    return incoming;
}

}  // namespace

Outcome<std::string> export_json(const Record& record) {
    return guarded(record.path(), [&]() -> Outcome<std::string> {
        const sql::Database& database = record.database();
        const sql::Transaction one_state(database, sql::Purpose::reading);
        YarnDocument document;
        document["schema"] = yarns_schema;
        document["yarns"] = YarnDocument::array();
        auto rows = database.query("SELECT * FROM present_yarn ORDER BY name");
        while (rows.step()) {
            YarnDocument yarn = yarn_document(sql::read_yarn(rows, 1));
            yarn["measurements"] = YarnDocument::array();
            for (const auto& stored : read_measurements(database, rows.whole(0), Reports::read))
                yarn["measurements"].push_back(measurement_document(stored));
            document["yarns"].push_back(std::move(yarn));
        }
        return document.dump(1, ' ') + "\n";
    });
}

Outcome<std::vector<IncomingYarn>> incoming_from_json(std::string_view json) {
    const auto document = parse_document(json);
    if (!document) return document.refusal();
    if (!document->is_object() || !document->contains("schema") || (*document)["schema"] != yarns_schema)
        return bad(std::string("the document is none of the schema ") + yarns_schema);
    const auto list = document->find("yarns");
    if (list == document->end() || !list->is_array()) return bad("yarns: expected a list");
    std::vector<IncomingYarn> yarns;
    for (std::size_t i = 0; i < list->size(); ++i) {
        auto yarn = incoming_from((*list)[i]);
        if (!yarn) return at_entry(yarn.refusal(), "yarn " + std::to_string(i + 1));
        yarns.push_back(std::move(yarn).value());
    }
    return yarns;
}

}  // namespace ridgetally

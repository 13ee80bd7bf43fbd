#include "yarns/import.h"

#include <algorithm>
#include <set>
#include <utility>

#include "yarns/fault.h"
#include "yarns/gauge_rows.h"
#include "yarns/names.h"
#include "yarns/validate.h"

namespace ridgetally {
namespace {

bool same_values(const Measurement& a, const Measurement& b) {
    Measurement with_report = a;
    if (a.report.empty() || b.report.empty()) with_report.report = b.report;
    return with_report == b;
}

bool same_photo(const Measurement& a, const Measurement& b) {
    return !a.photo_sha256.empty() && a.photo_sha256 == b.photo_sha256;
}

/// One import, inside a transaction of the caller.
class Import {
  public:
    Import(const sql::Database& database, Existing existing) : database_(database), existing_(existing) {}

    /// None where it went well.
    std::optional<Refusal> take(const IncomingYarn& incoming) {
        const std::string name = trimmed_name(incoming.name);
        if (!names_.insert(name).second) {
            return Refusal{record_stage, "bad-document", "the yarn \"" + name + "\" comes twice",
                           "leave one of them in the file"};
        }
        const auto id = take_yarn(name, incoming);
        if (!id) return id.refusal();
        auto there = read_measurements(database_, *id, Reports::read);
        for (const auto& stored : incoming.measurements) {
            if (auto refusal = take_measurement(name, *id, there, stored)) return refusal;
        }
        return std::nullopt;
    }
    [[nodiscard]] const ImportSummary& summary() const { return summary_; }

  private:
    Outcome<std::int64_t> take_yarn(const std::string& name, const IncomingYarn& incoming) {
        const auto before = yarn_named(database_, name);
        if (!incoming.yarn) return before ? Outcome<std::int64_t>(before->id) : before.refusal();
        const auto made = incoming.yarn(before ? std::optional(before->yarn) : std::nullopt);
        if (!made) return made.refusal();
        const auto yarn = checked(*made);
        if (!yarn) return yarn.refusal();
        if (!before) {
            ++summary_.yarns_added;
            return insert_yarn(database_, *yarn);
        }
        if (*yarn == before->yarn) {
            ++summary_.already_there;
        } else if (auto refusal = differs(name)) {
            return *refusal;
        } else if (existing_ == Existing::replaced) {
            update_yarn(database_, before->id, *yarn);
        }
        return before->id;
    }

    /// `there` holds the measurements of the yarn that nothing in the file has been matched with yet.
    std::optional<Refusal> take_measurement(const std::string& name, std::int64_t yarn,
                                            std::vector<StoredMeasurement>& there,
                                            const StoredMeasurement& stored) {
        const Measurement& incoming = stored.measurement;
        auto match = std::find_if(there.begin(), there.end(),
                                  [&](const auto& s) { return same_values(s.measurement, incoming); });
        const bool equal = match != there.end();
        if (!equal) {
            match = std::find_if(there.begin(), there.end(),
                                 [&](const auto& s) { return same_photo(s.measurement, incoming); });
        }
        if (match == there.end()) return add(yarn, stored);
        const std::int64_t number = match->number;
        const std::string match_report = match->measurement.report;
        there.erase(match);
        const bool report_is_new = !incoming.report.empty() && incoming.report != match_report;
        if (equal) {
            if (report_is_new) put_report(database_, number, incoming.report);
            ++summary_.already_there;
            return std::nullopt;
        }
        if (auto refusal = differs(name)) return refusal;
        if (existing_ != Existing::replaced) return std::nullopt;
        update_measurement(database_, number, incoming);
        if (report_is_new) put_report(database_, number, incoming.report);
        return std::nullopt;
    }

    std::optional<Refusal> add(std::int64_t yarn, const StoredMeasurement& stored) {
        if (auto before = saved_before(database_, stored.measurement)) return before;
        const bool free =
            stored.number > 0 &&
            !database_.query("SELECT 1 FROM measurement WHERE number = ?1", stored.number).step();
        insert_measurement(database_, yarn, free ? std::optional(stored.number) : std::nullopt,
                           stored.measurement);
        ++summary_.measurements_added;
        return std::nullopt;
    }

    std::optional<Refusal> differs(const std::string& name) {
        if (existing_ == Existing::refused) {
            return Refusal{
                record_stage, "differs-from-record",
                "\"" + name + "\" is in the record already, with other values; nothing was imported",
                "say which shall stand: --existing kept, or --existing replaced"};
        }
        if (existing_ == Existing::replaced) {
            ++summary_.replaced;
        } else if (summary_.kept.empty() || summary_.kept.back() != name) {
            summary_.kept.push_back(name);
        }
        return std::nullopt;
    }

    const sql::Database& database_;
    Existing existing_;
    std::set<std::string> names_;
    ImportSummary summary_;
};

}  // namespace

Outcome<ImportSummary> import_yarns(const Record& record, const std::vector<IncomingYarn>& incoming,
                                    Existing existing) {
    return guarded(record.path(), [&]() -> Outcome<ImportSummary> {
        const sql::Database& database = record.database();
        sql::Transaction transaction(database, sql::Purpose::writing);
        Import import(database, existing);
        for (const auto& yarn : incoming) {
            if (const auto refusal = import.take(yarn)) return *refusal;
        }
        transaction.commit();
        return import.summary();
    });
}

}  // namespace ridgetally

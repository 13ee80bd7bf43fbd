#include "yarns/stock.h"

#include <cmath>
#include <optional>

#include "yarns/fault.h"
#include "yarns/names.h"
#include "yarns/sql/rows.h"
#include "yarns/sql/views.h"
#include "yarns/validate.h"

namespace ridgetally {
namespace {

/// Less than this of a ball is nothing: what is left of thirds and sixths after they are used up.
constexpr double no_ball = 1e-9;

Outcome<Yarn> less(Yarn yarn, const Amount& used) {
    if (!yarn.balls) {
        return Refusal{record_stage, "unknown-amount",
                       "how much is left of \"" + yarn.name + "\" is not known",
                       "tell it with: yarn edit NAME --balls AMOUNT"};
    }
    const auto balls = in_balls(used, yarn);
    if (!balls) {
        return Refusal{record_stage, "unknown-amount",
                       "what one ball of \"" + yarn.name + "\" holds is not known",
                       "tell it with: yarn edit NAME --ball-mass 50g --ball-length 120m, or use up balls"};
    }
    double left = *yarn.balls - *balls;
    if (std::abs(left) < no_ball) left = 0.0;
    if (left < 0.0) {
        return Refusal{record_stage, "not-enough", "there is less than that left of \"" + yarn.name + "\"",
                       "look with: yarn show NAME; correct it with: yarn edit NAME --balls AMOUNT"};
    }
    yarn.balls = left;
    return yarn;
}

}  // namespace

Outcome<std::int64_t> add_yarn(const Record& record, const Yarn& yarn) {
    const auto good = checked(yarn);
    if (!good) return good.refusal();
    return guarded(record.path(), [&]() -> Outcome<std::int64_t> {
        const sql::Database& database = record.database();
        sql::Transaction transaction(database, sql::Purpose::writing);
        if (name_is_taken(database, good->name)) return name_taken(good->name);
        const std::int64_t id = insert_yarn(database, *good);
        transaction.commit();
        return id;
    });
}

Outcome<StoredYarn> find_yarn(const Record& record, std::string_view name) {
    return guarded(record.path(), [&]() -> Outcome<StoredYarn> {
        return yarn_named(record.database(), trimmed_name(name));
    });
}

Outcome<Yarn> change_yarn(const Record& record, std::string_view name,
                          const std::function<Outcome<Yarn>(Yarn)>& change) {
    return guarded(record.path(), [&]() -> Outcome<Yarn> {
        const sql::Database& database = record.database();
        sql::Transaction transaction(database, sql::Purpose::writing);
        const auto before = yarn_named(database, trimmed_name(name));
        if (!before) return before.refusal();
        const auto changed = change(before->yarn);
        if (!changed) return changed.refusal();
        auto good = checked(*changed);
        if (!good) return good;
        if (good->name != before->yarn.name && name_is_taken(database, good->name))
            return name_taken(good->name);
        update_yarn(database, before->id, *good);
        transaction.commit();
        return good;
    });
}

Outcome<Yarn> use_yarn(const Record& record, std::string_view name, const Amount& used) {
    return change_yarn(record, name, [&](Yarn yarn) { return less(std::move(yarn), used); });
}

Outcome<std::vector<StockLine>> list_yarns(const Record& record) {
    return guarded(record.path(), [&]() -> Outcome<std::vector<StockLine>> {
        auto rows = record.database().query(
            "SELECT y.*, (SELECT count(*) FROM measurement m WHERE m.yarn = y.id AND m.removed IS NULL) "
            "FROM present_yarn y ORDER BY name");
        std::vector<StockLine> lines;
        while (rows.step()) lines.push_back({sql::read_yarn(rows, 1), rows.whole(sql::present_yarn_columns)});
        return lines;
    });
}

bool in_stock(const Yarn& yarn) { return !yarn.balls || *yarn.balls > 0.0; }

}  // namespace ridgetally

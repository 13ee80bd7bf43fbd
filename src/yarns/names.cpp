#include "yarns/names.h"

#include "yarns/fault.h"
#include "yarns/sql/rows.h"

namespace ridgetally {
namespace {

constexpr int most_suggestions = 3;

/// Names that contain what was typed, or are contained in it, capitals or not (of the Latin letters A to Z).
std::string hint_for(const sql::Database& database, const std::string& name) {
    auto rows = database.query(
        "SELECT name FROM present_yarn "
        "WHERE instr(lower(name), lower(?1)) > 0 OR instr(lower(?1), lower(name)) > 0 "
        "ORDER BY name LIMIT ?2",
        name, most_suggestions);
    std::string names;
    while (rows.step()) names += (names.empty() ? "\"" : ", \"") + rows.text(0) + "\"";
    if (!names.empty()) return "is it one of these: " + names + "?";
    return "look with: yarn list; or put it into the record with: yarn add NAME";
}

}  // namespace

Outcome<StoredYarn> yarn_named(const sql::Database& database, const std::string& name) {
    auto row = database.query("SELECT * FROM present_yarn WHERE name = ?1", name);
    if (row.step()) return StoredYarn{row.whole(0), sql::read_yarn(row, 1)};
    return Refusal{record_stage, "no-such-yarn", "no yarn of the name \"" + name + "\" is in the record",
                   hint_for(database, name)};
}

bool name_is_taken(const sql::Database& database, const std::string& name) {
    return database.query("SELECT 1 FROM present_yarn WHERE name = ?1", name).step();
}

Refusal name_taken(const std::string& name) {
    return {record_stage, "name-taken", "a yarn of the name \"" + name + "\" is already in the record",
            "change it with: yarn edit NAME; or add its colour or dye lot to the new name"};
}

std::int64_t insert_yarn(const sql::Database& database, const Yarn& yarn) {
    auto statement = database.prepare(
        "INSERT INTO yarn (name, weight_category, fibre, colour, dye_lot, ball_g, ball_m, balls, band_craft, "
        "band_stitches, band_rows, band_span_mm, band_tool_mm, notes, added) "
        "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15)");
    sql::bind_yarn(statement, 1, yarn);
    statement.finish();
    return database.last_number();
}

void update_yarn(const sql::Database& database, std::int64_t id, const Yarn& yarn) {
    auto statement = database.prepare(
        "UPDATE yarn SET name = ?1, weight_category = ?2, fibre = ?3, colour = ?4, dye_lot = ?5, "
        "ball_g = ?6, ball_m = ?7, balls = ?8, band_craft = ?9, band_stitches = ?10, band_rows = ?11, "
        "band_span_mm = ?12, band_tool_mm = ?13, notes = ?14, added = ?15 WHERE id = ?16");
    const int next = sql::bind_yarn(statement, 1, yarn);
    statement.bind(next, id);
    statement.finish();
}

}  // namespace ridgetally

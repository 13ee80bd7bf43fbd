#include "catalog/tables.h"

namespace ridgetally {

Limits read_limits(TableRow& row, const std::string& field, double least, double most) {
    TableRow inner = row.child(field);
    Limits limits;
    limits.nominal = inner.number("nominal", least, most);
    limits.low = inner.number("low", least, limits.nominal);
    limits.high = inner.number("high", limits.nominal, most);
    limits.source = inner.text("source");
    inner.finish();
    return limits;
}

SourcedValue read_value(TableRow& row, const std::string& field, double least, double most) {
    TableRow inner = row.child(field);
    SourcedValue value{inner.number("value", least, most), inner.text("source")};
    inner.finish();
    return value;
}

UsualRange read_usual(TableRow& row, const std::string& field, double least, double most) {
    TableRow inner = row.child(field);
    UsualRange range;
    range.low = inner.number("low", least, most);
    range.usual = inner.number("usual", range.low, most);
    range.high = inner.number("high", range.usual, most);
    range.source = inner.text("source");
    inner.finish();
    return range;
}

}  // namespace ridgetally

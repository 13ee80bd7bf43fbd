#include "fuzz_target.h"
#include "yarns/exchange.h"

namespace {

using namespace ridgetally;

/// A record of its own in memory: what is opened to be looked at where there is no file.
Record empty_record() {
    auto record = Record::open("/nonexistent/ridgetally-fuzz.db", Access::look);
    fuzz::require(record.ok());
    return std::move(record).value();
}

}  // namespace

/// A file that is imported into the record, JSON or CSV. What an import took in comes out again, and that
/// goes in and out unchanged.
int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    constexpr const char* today = "2026-01-02";
    const auto incoming = read_exchange(fuzz::text_of({data, size}), today);
    if (!incoming) {
        fuzz::require(!incoming.refusal().code.empty() && !incoming.refusal().message.empty());
        return 0;
    }
    const Record record = empty_record();
    if (!import_yarns(record, *incoming, Existing::refused)) return 0;
    const auto exported = export_json(record);
    fuzz::require(exported.ok() && export_yarns_csv(record).ok() && export_gauges_csv(record).ok());

    const auto again = read_exchange(*exported, today);
    fuzz::require(again.ok());
    const Record copy = empty_record();
    fuzz::require(import_yarns(copy, *again, Existing::refused).ok());
    const auto second = export_json(copy);
    fuzz::require(second.ok() && *second == *exported);
    return 0;
}

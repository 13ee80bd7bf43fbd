#include "yarns/documents.h"

#include <algorithm>

#include "yarns/fault.h"
#include "yarns/fields.h"
#include "yarns/keys.h"
#include "yarns/validate.h"

namespace ridgetally {
namespace {

constexpr std::string_view number_key = "number";
constexpr std::string_view report_key = "report";

/// Writes what was told.
class Writer {
  public:
    explicit Writer(YarnDocument& document) : document_(document) {}
    void operator()(std::string_view field, const std::string& text) {
        if (!text.empty()) document_[std::string(field)] = text;
    }
    template <Keyed T>
    void operator()(std::string_view field, const T& value) {
        document_[std::string(field)] = key_of(value);
    }
    template <typename T>
    void operator()(std::string_view field, const std::optional<T>& value) {
        if (!value) return;
        if constexpr (Keyed<T>) {
            document_[std::string(field)] = key_of(*value);
        } else {
            document_[std::string(field)] = *value;
        }
    }

  private:
    YarnDocument& document_;
};

/// Reads fields and keeps the first fault.
class Reader {
  public:
    explicit Reader(const YarnDocument& document) : document_(document) {
        if (!document.is_object()) note("", "expected an object");
    }
    void operator()(std::string_view field, std::string& text) {
        const YarnDocument* value = find(field);
        if (value == nullptr) return;
        if (!value->is_string()) return note(field, "expected text");
        text = value->get<std::string>();
    }
    void operator()(std::string_view field, std::optional<double>& number) {
        const YarnDocument* value = find(field);
        if (value == nullptr) return;
        if (!value->is_number()) return note(field, "expected a number");
        number = value->get<double>();
    }
    void operator()(std::string_view field, std::optional<int>& number) {
        std::int64_t whole = 0;
        if (!read_whole(field, whole)) return;
        if (whole < 0 || whole > 1000000) return note(field, "expected a small whole number");
        number = static_cast<int>(whole);
    }
    template <Keyed T>
    void operator()(std::string_view field, T& value) {
        std::optional<T> read;
        (*this)(field, read);
        if (read) value = *read;
    }
    template <Keyed T>
    void operator()(std::string_view field, std::optional<T>& value) {
        std::string word;
        (*this)(field, word);
        if (word.empty()) return;
        value = from_key<T>(word);
        if (!value) note(field, "unknown word \"" + word + "\"");
    }
    bool read_whole(std::string_view field, std::int64_t& number) {
        const YarnDocument* value = find(field);
        if (value == nullptr) return false;
        if (!value->is_number_integer()) {
            note(field, "expected a whole number");
            return false;
        }
        number = value->get<std::int64_t>();
        return true;
    }
    const YarnDocument* find(std::string_view field) {
        asked_.emplace_back(field);
        if (!document_.is_object()) return nullptr;
        const auto at = document_.find(std::string(field));
        return at == document_.end() ? nullptr : &*at;
    }
    void note(std::string_view field, const std::string& why) {
        if (fault_) return;
        const std::string where = field.empty() ? "" : std::string(field) + ": ";
        fault_ = Refusal{record_stage, "bad-document", where + why, "give a file that this program exported"};
    }
    /// The first fault, a key that nobody asked for being one.
    const std::optional<Refusal>& finish() {
        if (!document_.is_object()) return fault_;
        for (const auto& [key, value] : document_.items()) {
            if (std::find(asked_.begin(), asked_.end(), key) == asked_.end()) note(key, "unknown field");
        }
        return fault_;
    }

  private:
    const YarnDocument& document_;
    std::vector<std::string> asked_;
    std::optional<Refusal> fault_;
};

}  // namespace

YarnDocument yarn_document(const Yarn& yarn) {
    YarnDocument document = YarnDocument::object();
    Writer writer(document);
    visit_yarn(yarn, [&](std::string_view field, const auto& value) { writer(field, value); });
    return document;
}

YarnDocument measurement_document(const StoredMeasurement& stored) {
    YarnDocument document = YarnDocument::object();
    document[std::string(number_key)] = stored.number;
    Writer writer(document);
    visit_measurement(stored.measurement,
                      [&](std::string_view field, const auto& value) { writer(field, value); });
    if (!stored.measurement.report.empty()) {
        document[std::string(report_key)] = YarnDocument::parse(stored.measurement.report, nullptr, false);
    }
    return document;
}

Outcome<Yarn> yarn_from(const YarnDocument& document) {
    Yarn yarn;
    Reader reader(document);
    visit_yarn(yarn, [&](std::string_view field, auto& value) { reader(field, value); });
    // Written beside a yarn by others; read on their own.
    (void)reader.find("measurements");
    if (reader.finish()) return *reader.finish();
    return checked(std::move(yarn));
}

Outcome<StoredMeasurement> measurement_from(const YarnDocument& document) {
    StoredMeasurement stored;
    Reader reader(document);
    if (reader.read_whole(number_key, stored.number) && stored.number < 1)
        reader.note(number_key, "expected 1 or more");
    visit_measurement(stored.measurement, [&](std::string_view field, auto& value) { reader(field, value); });
    if (const YarnDocument* report = reader.find(report_key)) stored.measurement.report = report->dump();
    if (reader.finish()) return *reader.finish();
    auto good = checked(std::move(stored.measurement));
    if (!good) return good.refusal();
    return StoredMeasurement{stored.number, std::move(good).value()};
}

Outcome<YarnDocument> parse_document(std::string_view json) {
    // Deeper than anything this program writes; a file made to be deep would exhaust the stack later on.
    constexpr int deepest = 64;
    bool too_deep = false;
    auto document = YarnDocument::parse(
        json,
        [&](int depth, YarnDocument::parse_event_t, const YarnDocument&) {
            too_deep = too_deep || depth > deepest;
            return depth <= deepest;
        },
        false);
    if (document.is_discarded() || too_deep) {
        return Refusal{record_stage, "bad-document", "this is no JSON document",
                       "give a file that this program exported"};
    }
    return document;
}

}  // namespace ridgetally

#include "yarns/sql/rows.h"

#include "yarns/fields.h"
#include "yarns/keys.h"

namespace ridgetally::sql {
namespace {

/// Binds one field after the other.
class Binder {
  public:
    Binder(Statement& statement, int first) : statement_(statement), next_(first) {}
    template <typename T>
    void operator()(std::string_view, const T& value) {
        statement_.bind(next_++, value);
    }
    template <Keyed T>
    void operator()(std::string_view, const T& value) {
        statement_.bind(next_++, key_of(value));
    }
    template <Keyed T>
    void operator()(std::string_view, const std::optional<T>& value) {
        value ? statement_.bind(next_++, key_of(*value)) : statement_.bind(next_++, std::nullopt);
    }
    [[nodiscard]] int next() const { return next_; }

  private:
    Statement& statement_;
    int next_;
};

/// Reads one field after the other.
class Reader {
  public:
    Reader(const Statement& statement, int first) : statement_(statement), next_(first) {}
    void operator()(std::string_view, std::string& value) { value = statement_.text(next_++); }
    void operator()(std::string_view, std::optional<double>& value) {
        if (!statement_.is_null(next_)) value = statement_.real(next_);
        ++next_;
    }
    void operator()(std::string_view, std::optional<int>& value) {
        if (!statement_.is_null(next_)) value = static_cast<int>(statement_.whole(next_));
        ++next_;
    }
    template <Keyed T>
    void operator()(std::string_view field, T& value) {
        value = word<T>(field);
    }
    template <Keyed T>
    void operator()(std::string_view field, std::optional<T>& value) {
        if (statement_.is_null(next_)) {
            ++next_;
            return;
        }
        value = word<T>(field);
    }

  private:
    template <Keyed T>
    T word(std::string_view field) {
        const std::string key = statement_.text(next_++);
        const auto known = from_key<T>(key);
        if (!known) throw Fault(SQLITE_CORRUPT, "unknown word \"" + key + "\" in " + std::string(field));
        return *known;
    }

    const Statement& statement_;
    int next_;
};

}  // namespace

int bind_yarn(Statement& statement, int first, const Yarn& yarn) {
    Binder binder(statement, first);
    visit_yarn(yarn, [&](std::string_view field, const auto& value) { binder(field, value); });
    return binder.next();
}

int bind_measurement(Statement& statement, int first, const Measurement& measurement) {
    Binder binder(statement, first);
    visit_measurement(measurement, [&](std::string_view field, const auto& value) { binder(field, value); });
    return binder.next();
}

Yarn read_yarn(const Statement& statement, int first) {
    Yarn yarn;
    Reader reader(statement, first);
    visit_yarn(yarn, [&](std::string_view field, auto& value) { reader(field, value); });
    return yarn;
}

Measurement read_measurement(const Statement& statement, int first) {
    Measurement measurement;
    Reader reader(statement, first);
    visit_measurement(measurement, [&](std::string_view field, auto& value) { reader(field, value); });
    return measurement;
}

}  // namespace ridgetally::sql

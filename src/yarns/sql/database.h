#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

/// SQLite as values that own what they hold. Used inside this layer only.
namespace ridgetally::sql {

/// A fault that SQLite reports, with its extended result code. Never leaves this layer: `guarded` turns it
/// into a Refusal.
class Fault : public std::runtime_error {
  public:
    Fault(int code, const std::string& message) : std::runtime_error(message), code_(code) {}
    /// Extended result code (sqlite.org/rescode.html).
    [[nodiscard]] int code() const { return code_; }
    /// The part of the code that says the kind, e.g. SQLITE_IOERR of SQLITE_IOERR_WRITE.
    [[nodiscard]] int kind() const { return code_ & 0xFF; }

  private:
    int code_;
};

/// SQL as it stands in the source. It cannot be made from anything known only at run time: values reach
/// SQLite as bound parameters or not at all.
struct Text {
    consteval Text(const char* constant) : sql(constant) {}
    const char* sql;
};

/// A prepared statement with its parameters.
class Statement {
  public:
    Statement(sqlite3* database, Text text);

    /// Binds the parameter `index` (from 1). Text may hold any bytes.
    void bind(int index, std::int64_t value);
    void bind(int index, int value) { bind(index, static_cast<std::int64_t>(value)); }
    void bind(int index, double value);
    void bind(int index, std::string_view value);
    void bind(int index, const std::string& value) { bind(index, std::string_view(value)); }
    void bind(int index, const char* value) { bind(index, std::string_view(value)); }
    void bind(int index, std::nullopt_t nothing);
    template <typename T>
    void bind(int index, const std::optional<T>& value) {
        value ? bind(index, *value) : bind(index, std::nullopt);
    }
    /// Goes on to the next row; false after the last.
    [[nodiscard]] bool step();
    /// Steps to the end.
    void finish();
    /// Back to the start, to be bound again.
    void reset();

    /// Columns of the row, from 0.
    [[nodiscard]] bool is_null(int column) const;
    [[nodiscard]] std::int64_t whole(int column) const;
    [[nodiscard]] double real(int column) const;
    [[nodiscard]] std::string text(int column) const;

  private:
    struct Finalize {
        void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
    };
    void require(int code) const;

    sqlite3* database_;
    std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

/// Whether a file that is not there may be made.
enum class Missing { fails, is_made };

/// An open database file.
class Database {
  public:
    /// Opens a file for reading and writing, or for reading only where the system allows no more.
    Database(const std::string& path, Missing missing, int busy_timeout_ms);
    /// A database in memory.
    Database();

    [[nodiscard]] Statement prepare(Text text) const { return {handle_.get(), text}; }
    /// A statement with its first parameters bound, to be stepped through.
    template <typename... Values>
    [[nodiscard]] Statement query(Text text, const Values&... values) const {
        Statement statement = prepare(text);
        int index = 0;
        (statement.bind(++index, values), ...);
        return statement;
    }
    /// The same, run to its end.
    template <typename... Values>
    void run(Text text, const Values&... values) const {
        query(text, values...).finish();
    }
    /// Several statements without parameters.
    void script(Text text) const;
    /// Rows that the last statement changed.
    [[nodiscard]] std::int64_t changes() const { return sqlite3_changes64(handle_.get()); }
    [[nodiscard]] std::int64_t last_number() const { return sqlite3_last_insert_rowid(handle_.get()); }
    /// Copies the whole database, page by page, into a new file.
    void copy_to(const std::string& path) const;

  private:
    struct Close {
        void operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }
    };
    void configure(int busy_timeout_ms) const;

    std::unique_ptr<sqlite3, Close> handle_;
};

/// A transaction that is rolled back unless it was committed. Writing takes the lock at once, so that two
/// programs that read before they write cannot wait for each other; reading sees one state of the file.
enum class Purpose { reading, writing };

class Transaction {
  public:
    Transaction(const Database& database, Purpose purpose);
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    ~Transaction();
    void commit();

  private:
    const Database& database_;
    bool open_ = true;
};

}  // namespace ridgetally::sql

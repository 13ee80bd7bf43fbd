#include <array>
#include <nlohmann/json.hpp>

#include "catalog/tables.h"
#include "fuzz_target.h"

/// A file of facts. The first letter says which one: s, r, h, y or p (stitches, references, hooks, yarn
/// weights, people's heads); JSON follows. A fault of the file is a TableFault and nothing else.
int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace ridgetally;
    struct Table {
        char letter;
        void (*read)(TableRow&, Catalog&);
    };
    constexpr std::array tables = {Table{'s', read_stitches}, Table{'r', read_references},
                                   Table{'h', read_hooks}, Table{'y', read_yarn_weights},
                                   Table{'p', read_heads}};
    if (size == 0) return 0;
    const auto text = fuzz::text_of({data + 1, size - 1});
    const auto document = nlohmann::json::parse(text, nullptr, false);
    if (document.is_discarded()) return 0;
    for (const auto& table : tables) {
        if (table.letter != static_cast<char>(data[0])) continue;
        try {
            TableRow top(document, "fuzz");
            (void)top.text("schema");
            (void)top.text("note");
            Catalog catalog;
            table.read(top, catalog);
            top.finish();
        } catch (const TableFault&) {
            return 0;
        }
    }
    return 0;
}

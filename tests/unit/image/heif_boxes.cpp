#include "heif_boxes.h"

#include <stdexcept>

#include "image/decode_heif_boxes.h"

namespace ridgetally::files {
namespace {

Bytes box(const std::string& type, const Bytes& content) {
    Bytes bytes;
    put_big(bytes, content.size() + 8, 4);
    bytes.insert(bytes.end(), type.begin(), type.end());
    bytes.insert(bytes.end(), content.begin(), content.end());
    return bytes;
}

void append(Bytes& bytes, const Bytes& more) { bytes.insert(bytes.end(), more.begin(), more.end()); }

void append_text(Bytes& bytes, const std::string& text) {
    bytes.insert(bytes.end(), text.begin(), text.end());
}

/// Numbers one after the other, each with its width in bytes.
struct Number {
    std::size_t value;
    int width;
};
Bytes numbers(const std::vector<Number>& list) {
    Bytes bytes;
    for (const auto& [value, width] : list) put_big(bytes, value, width);
    return bytes;
}

std::size_t number_of(int id) { return static_cast<std::size_t>(id); }

Bytes item_infos(const std::vector<HeifItem>& items) {
    Bytes content = numbers({{1U << 24, 4}, {items.size(), 4}});
    for (const HeifItem& item : items) {
        Bytes info = numbers({{2U << 24, 4}, {number_of(item.id), 2}, {0, 2}});
        append_text(info, item.type);
        info.push_back(0);
        append(content, box("infe", info));
    }
    return box("iinf", content);
}

Bytes properties(const std::vector<HeifItem>& items) {
    Bytes all, associations = numbers({{1, 4}, {items.size(), 4}});  // numbers of two bytes
    std::size_t count = 0;
    for (const HeifItem& item : items) {
        const std::size_t before = count;
        const auto add = [&](const Bytes& property) {
            append(all, property);
            ++count;
        };
        if (item.declared)
            add(box("ispe", numbers({{0, 4},
                                     {static_cast<std::size_t>(item.declared->width), 4},
                                     {static_cast<std::size_t>(item.declared->height), 4}})));
        if (!item.configuration.empty()) add(box("hvcC", item.configuration));
        if (!item.auxiliary.empty()) {
            Bytes name(4, 0);
            append_text(name, item.auxiliary);
            name.push_back(0);
            add(box("auxC", name));
        }
        append(associations, numbers({{number_of(item.id), 2}, {count - before, 1}}));
        for (std::size_t index = before + 1; index <= count; ++index) put_big(associations, index, 2);
    }
    Bytes content = box("ipco", all);
    append(content, box("ipma", associations));
    return box("iprp", content);
}

Bytes references(const std::vector<HeifReference>& list) {
    Bytes content(4, 0);
    for (const HeifReference& reference : list) {
        Bytes ids = numbers({{number_of(reference.from), 2}, {reference.to.size(), 2}});
        for (const int id : reference.to) put_big(ids, number_of(id), 2);
        append(content, box(reference.type, ids));
    }
    return box("iref", content);
}

/// Data lies in "mdat" at `start`, item after item.
Bytes locations(const std::vector<HeifItem>& items, std::size_t start) {
    Bytes content = numbers({{0, 4}, {0x4400, 2}, {items.size(), 2}});
    for (const HeifItem& item : items) {
        append(content,
               numbers({{number_of(item.id), 2}, {0, 2}, {1, 2}, {start, 4}, {item.data.size(), 4}}));
        start += item.data.size();
    }
    return box("iloc", content);
}

Bytes meta(const HeifContent& content, std::size_t data_start) {
    Bytes all(4, 0);
    Bytes handler = numbers({{0, 8}});
    append_text(handler, "pict");
    handler.resize(handler.size() + 13, 0);
    append(all, box("hdlr", handler));
    append(all, box("pitm", numbers({{0, 4}, {number_of(content.primary), 2}})));
    append(all, item_infos(content.items));
    append(all, properties(content.items));
    if (!content.references.empty()) append(all, references(content.references));
    append(all, locations(content.items, data_start));
    return box("meta", all);
}

/// Bits of a unit's payload, written one by one.
class Bits {
  public:
    void put(bool bit) {
        if (count_ % 8 == 0) bytes_.push_back(0);
        if (bit) bytes_.back() |= static_cast<std::uint8_t>(0x80U >> count_ % 8);
        ++count_;
    }
    /// ue(v) (9.2).
    void put_golomb(std::uint32_t value) {
        const std::uint64_t code = std::uint64_t{value} + 1;
        int length = 0;
        while (code >> length > 1) ++length;
        for (int i = 0; i < length; ++i) put(false);
        for (int i = length; i >= 0; --i) put((code >> i & 1) != 0);
    }
    [[nodiscard]] const Bytes& bytes() const { return bytes_; }

  private:
    Bytes bytes_;
    std::size_t count_ = 0;
};

/// Reads what Bits writes; none of the sets here needs its emulation prevention taken out before the size.
struct BitSource {
    const Bytes& bytes;
    std::size_t at = 0;
    bool bit() {
        const bool set = (bytes.at(at / 8) >> (7 - at % 8) & 1) != 0;
        ++at;
        return set;
    }
    std::uint32_t golomb() {
        int zeros = 0;
        while (!bit()) ++zeros;
        std::uint32_t value = 1;
        for (int i = 0; i < zeros; ++i) value = value << 1 | (bit() ? 1U : 0U);
        return value - 1;
    }
};

/// Without and with the bytes that keep start codes from forming (7.4.2).
Bytes unstuffed(const Bytes& unit) {
    Bytes plain;
    int zeros = 0;
    for (const std::uint8_t byte : unit) {
        if (zeros < 2 || byte != 3) plain.push_back(byte);
        zeros = byte == 0 ? zeros + 1 : 0;
    }
    return plain;
}
Bytes stuffed(const Bytes& plain) {
    Bytes unit;
    int zeros = 0;
    for (const std::uint8_t byte : plain) {
        if (zeros >= 2 && byte <= 3) {
            unit.push_back(3);
            zeros = 0;
        }
        unit.push_back(byte);
        zeros = byte == 0 ? zeros + 1 : 0;
    }
    return unit;
}

/// A sequence parameter set (7.3.2.2.1) of one layer, as the encoder here writes it, copied with other
/// numbers in it.
class SequenceCopy {
  public:
    explicit SequenceCopy(const Bytes& unit) : plain_(unstuffed(unit)), source_{plain_} {
        // Header, one layer, profile and level: 16 + 4 + 3 + 1 + 96 bits.
        while (source_.at < 120) copy_bit();
        copy_number();
        const std::uint32_t chroma = copy_number();
        if (chroma == 3) copy_bit();
    }
    void put(std::uint32_t instead) {
        source_.golomb();
        bits_.put_golomb(instead);
    }
    std::uint32_t copy_number() {
        const std::uint32_t number = source_.golomb();
        bits_.put_golomb(number);
        return number;
    }
    bool copy_bit() {
        const bool bit = source_.bit();
        bits_.put(bit);
        return bit;
    }
    /// With all that is left of the set.
    Bytes whole() {
        while (source_.at < plain_.size() * 8) copy_bit();
        return stuffed(bits_.bytes());
    }

  private:
    Bytes plain_;
    BitSource source_;
    Bits bits_;
};

Bytes resized(const Bytes& unit, const cv::Size& size) {
    SequenceCopy copy(unit);
    copy.put(static_cast<std::uint32_t>(size.width));
    copy.put(static_cast<std::uint32_t>(size.height));
    return copy.whole();
}

Bytes renumbered(const Bytes& unit, SequenceNumber number, std::uint32_t value) {
    SequenceCopy copy(unit);
    const auto numbers = [&copy](int count) {
        for (int i = 0; i < count; ++i) copy.copy_number();
    };
    numbers(2);                       // the size
    if (copy.copy_bit()) numbers(4);  // the window
    for (int at = 0; at <= static_cast<int>(number); ++at) {
        if (at == static_cast<int>(SequenceNumber::log2_least_coding_block_above_3)) {
            numbers(1);       // picture order counts
            copy.copy_bit();  // whether they are told by layer: there is one
            numbers(3);
        }
        if (at == static_cast<int>(number))
            copy.put(value);
        else
            numbers(1);
    }
    return copy.whole();
}

/// The item with its sequence parameter sets (type 33) changed.
template <typename Change>
HeifItem with_changed_sequence(const HeifItem& item, Change change) {
    constexpr int sequence_parameters = 33;
    HeifItem changed = item;
    heif::ByteReader reader(item.configuration);
    const auto head = reader.take(22);
    changed.configuration.assign(head.begin(), head.end());
    const std::uint64_t arrays = reader.number(1);
    put_big(changed.configuration, arrays, 1);
    for (std::uint64_t i = 0; i < arrays; ++i) {
        put_big(changed.configuration, reader.number(1), 1);
        const std::uint64_t units = reader.number(2);
        put_big(changed.configuration, units, 2);
        for (std::uint64_t k = 0; k < units; ++k) {
            const auto part = reader.take(reader.number(2));
            Bytes unit(part.begin(), part.end());
            if ((unit.at(0) >> 1 & 0x3F) == sequence_parameters) unit = change(unit);
            put_big(changed.configuration, unit.size(), 2);
            append(changed.configuration, unit);
        }
    }
    return changed;
}

}  // namespace

Bytes heif_file(const HeifContent& content) {
    const std::string brands = "heicmif1mif1heic";  // the major one, a version, those it keeps to
    Bytes file = box("ftyp", Bytes(brands.begin(), brands.end()));
    const std::size_t start = file.size() + meta(content, 0).size() + 8;
    append(file, meta(content, start));
    Bytes data;
    for (const HeifItem& item : content.items) append(data, item.data);
    append(file, box("mdat", data));
    return file;
}

HeifItem coded_picture(const Bytes& heic) {
    const auto structure = heif::read_structure(heic);
    if (!structure) throw std::runtime_error(structure.refusal().message);
    const heif::Item& item = structure->items.at(structure->primary);
    HeifItem picture;
    for (const auto part : item.extents) picture.data.insert(picture.data.end(), part.begin(), part.end());
    for (const heif::Box& property : item.properties) {
        heif::ByteReader reader(property.content);
        if (property.type == heif::four_cc("hvcC"))
            picture.configuration.assign(property.content.begin(), property.content.end());
        if (property.type == heif::four_cc("ispe")) {
            reader.number(4);
            const int width = static_cast<int>(reader.number(4));
            picture.declared = cv::Size(width, static_cast<int>(reader.number(4)));
        }
    }
    return picture;
}

HeifItem coded_as(const HeifItem& item, const cv::Size& size) {
    return with_changed_sequence(item, [&](const Bytes& unit) { return resized(unit, size); });
}

HeifItem coded_with(const HeifItem& item, SequenceNumber number, std::uint32_t value) {
    return with_changed_sequence(item, [&](const Bytes& unit) { return renumbered(unit, number, value); });
}

Bytes grid_data(int rows, int columns, const cv::Size& canvas) {
    return numbers({{0, 1},
                    {1, 1},
                    {number_of(rows - 1), 1},
                    {number_of(columns - 1), 1},
                    {static_cast<std::size_t>(canvas.width), 4},
                    {static_cast<std::size_t>(canvas.height), 4}});
}

}  // namespace ridgetally::files

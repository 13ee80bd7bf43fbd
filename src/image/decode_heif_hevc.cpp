#include "image/decode_heif_hevc.h"

#include <algorithm>

namespace ridgetally::heif {
namespace {

/// Bits of a unit's payload; bytes that only keep a start code from forming are left out (7.4.2). Behind the
/// end every bit is 0, and ok() is false.
class BitReader {
  public:
    explicit BitReader(ByteSpan unit) {
        int zeros = 0;
        for (const std::uint8_t byte : unit) {
            const bool stuffed = zeros >= 2 && byte == 3;
            if (!stuffed) payload_.push_back(byte);
            zeros = byte == 0 ? zeros + 1 : 0;
        }
    }

    std::uint32_t bits(int count) {
        std::uint32_t value = 0;
        for (int i = 0; i < count; ++i) value = value << 1 | bit();
        return value;
    }
    void skip(std::size_t count) { at_ += count; }
    /// ue(v), an Exp-Golomb code (9.2).
    std::uint32_t golomb() {
        int zeros = 0;
        while (ok() && bit() == 0) ++zeros;
        if (zeros > 31) at_ = payload_.size() * 8 + 1;
        return ok() ? (1U << zeros) - 1 + bits(zeros) : 0;
    }
    [[nodiscard]] bool ok() const { return at_ <= payload_.size() * 8; }

  private:
    std::uint32_t bit() {
        const std::size_t byte = at_ / 8;
        const unsigned shift = 7 - at_ % 8;
        ++at_;
        return byte < payload_.size() ? payload_[byte] >> shift & 1U : 0U;
    }
    std::vector<std::uint8_t> payload_;
    std::size_t at_ = 0;
};

/// profile_tier_level(1, max_sub_layers_minus1) (7.3.3).
void skip_profile(BitReader& reader, std::uint32_t further_layers) {
    constexpr std::size_t profile_bits = 88, level_bits = 8;
    reader.skip(profile_bits + level_bits);
    std::size_t layers = 0;
    for (std::uint32_t i = 0; i < further_layers; ++i) {
        layers += reader.bits(1) * profile_bits;
        layers += reader.bits(1) * level_bits;
    }
    if (further_layers > 0) reader.skip(2 * (8 - std::size_t{further_layers}) + layers);
}

/// What the decoder takes from a sequence parameter set (7.3.2.2.1) before it looks at pixels.
struct SequenceParameters {
    std::int64_t width_px = 0, height_px = 0;
    std::int64_t luma_bits = 0, chroma_bits = 0;          ///< beyond 8
    std::int64_t log2_coding = 0, log2_coding_range = 0;  ///< the least, and how far above it the largest is
    std::int64_t log2_transform = 0, log2_transform_range = 0;
    std::int64_t inter_depth = 0, intra_depth = 0;
};

/// None where the unit ends before.
std::optional<SequenceParameters> sequence_parameters_of(ByteSpan unit) {
    // Profiles of seven layers are 86 bytes, what else stands before the depths is 45 numbers, of 8 bytes at
    // most; emulation makes three bytes of two.
    constexpr std::size_t enough = 672;
    BitReader reader(unit.first(std::min(unit.size(), enough)));
    reader.skip(16 + 4);  // the unit's header, the video parameter set
    const std::uint32_t further_layers = reader.bits(3);
    if (further_layers > 6) return std::nullopt;
    reader.skip(1);
    skip_profile(reader, further_layers);
    const auto pass = [&reader](std::uint32_t numbers) {
        for (std::uint32_t i = 0; i < numbers; ++i) reader.golomb();
    };
    pass(1);                                   // its number
    if (reader.golomb() == 3) reader.skip(1);  // chroma format; 4:4:4 says whether planes are apart
    SequenceParameters set;
    set.width_px = reader.golomb();
    set.height_px = reader.golomb();
    constexpr std::uint32_t of_window = 4, of_layer = 3;
    if (reader.bits(1) == 1) pass(of_window);
    set.luma_bits = reader.golomb();
    set.chroma_bits = reader.golomb();
    pass(1);  // picture order counts
    const bool told_by_layer = reader.bits(1) == 1;
    pass(of_layer * (told_by_layer ? further_layers + 1 : 1));
    set.log2_coding = 3 + std::int64_t{reader.golomb()};
    set.log2_coding_range = reader.golomb();
    set.log2_transform = 2 + std::int64_t{reader.golomb()};
    set.log2_transform_range = reader.golomb();
    set.inter_depth = reader.golomb();
    set.intra_depth = reader.golomb();
    if (!reader.ok()) return std::nullopt;
    return set;
}

/// The limits of 7.4.3.2.1, and largest blocks of 64 as in all profiles (annex A.3). libde265 keeps to them
/// as well, but complains on standard error.
bool within_limits(const SequenceParameters& set) {
    constexpr std::int64_t most_bits = 8, log2_largest_coding = 6, log2_largest_transform = 5;
    const std::int64_t largest_coding = set.log2_coding + set.log2_coding_range;
    if (set.luma_bits > most_bits || set.chroma_bits > most_bits || largest_coding > log2_largest_coding)
        return false;
    const std::int64_t block_px = std::int64_t{1} << set.log2_coding;
    const std::int64_t deepest = largest_coding - set.log2_transform;
    return set.width_px > 0 && set.height_px > 0 && set.width_px % block_px == 0 &&
           set.height_px % block_px == 0 && set.log2_transform < set.log2_coding &&
           set.log2_transform + set.log2_transform_range <=
               std::min(largest_coding, log2_largest_transform) &&
           set.inter_depth <= deepest && set.intra_depth <= deepest;
}

/// nal_unit_type (table 7-1).
enum : unsigned {
    first_random_access = 16,
    idr_with_leading = 19,
    idr_alone = 20,
    last_random_access = 21,
    last_of_picture = 31,
    sequence_parameters = 33
};

/// Looks at units one after the other, as the decoder will get them.
class UnitScan {
  public:
    /// Whether a still picture may hold this unit.
    bool take(ByteSpan unit) {
        if (unit.size() < 2) return false;
        const unsigned type = unit[0] >> 1 & 0x3FU;
        const unsigned layer = (unit[0] & 1U) << 5 | unit[1] >> 3;
        if (layer > 0) return true;  // decoders of one layer pass over these (annex F)
        if (type == sequence_parameters) return take_size(unit);
        if (type > last_of_picture) return true;
        return take_slice(unit, type);
    }
    [[nodiscard]] std::optional<HevcPicture> picture() const {
        if (picture_.width_px == 0) return std::nullopt;
        return picture_;
    }

  private:
    bool take_size(ByteSpan unit) {
        const auto set = sequence_parameters_of(unit);
        if (!set || !within_limits(*set)) return false;
        picture_.width_px = std::max(picture_.width_px, set->width_px);
        picture_.height_px = std::max(picture_.height_px, set->height_px);
        return true;
    }
    bool take_slice(ByteSpan unit, unsigned type) {
        if (type < first_random_access || type > last_random_access || unit.size() < 3) return false;
        const bool first_of_picture = (unit[2] & 0x80U) != 0;
        if (first_of_picture && ++pictures_ > 1) return false;
        constexpr int with_references = 17;
        if (type != idr_with_leading && type != idr_alone) picture_.pictures = with_references;
        return true;
    }
    HevcPicture picture_;
    int pictures_ = 0;
};

bool scan_configuration(ByteSpan configuration, UnitScan& scan) {
    ByteReader reader(configuration);
    reader.take(22);  // profile, chroma format, depths, rates
    const std::uint64_t arrays = reader.number(1);
    for (std::uint64_t i = 0; i < arrays && reader.ok(); ++i) {
        reader.number(1);  // the type; each unit tells its own
        const std::uint64_t units = reader.number(2);
        for (std::uint64_t k = 0; k < units && reader.ok(); ++k) {
            const ByteSpan unit = reader.take(reader.number(2));
            if (!unit.empty() && !scan.take(unit)) return false;
        }
    }
    return reader.ok();
}

}  // namespace

std::optional<HevcPicture> read_hevc_picture(ByteSpan configuration, const std::vector<ByteSpan>& data) {
    UnitScan scan;
    if (!scan_configuration(configuration, scan)) return std::nullopt;
    std::vector<std::uint8_t> joined;
    for (const ByteSpan part : data) joined.insert(joined.end(), part.begin(), part.end());
    ByteReader reader(joined);
    while (!reader.at_end()) {
        const ByteSpan unit = reader.take(reader.number(4));
        if (!reader.ok() || !scan.take(unit)) return std::nullopt;
    }
    return scan.picture();
}

}  // namespace ridgetally::heif

#include "cli/picture_file.h"

#include <array>
#include <cstdio>
#include <filesystem>
#include <stdexcept>
#include <system_error>

#include "core/lower_case.h"
#include "image/encode.h"

namespace ridgetally {
namespace {

// Above 90 the file of a reduced photo doubles and nothing more can be seen (looked at on thin lines).
constexpr int jpeg_quality = 90;

std::string ending_of(const std::string& file) {
    return lower_case(std::filesystem::path(file).extension().string());
}

}  // namespace

bool is_picture_name(const std::string& file) {
    const std::string ending = ending_of(file);
    return ending == ".png" || ending == ".jpg" || ending == ".jpeg";
}

Outcome<Written> write_picture(const std::string& file, const cv::Mat& picture) {
    if (!is_picture_name(file)) throw std::invalid_argument("no picture format of that name: " + file);
    return ending_of(file) == ".png" ? write_png(file, picture) : write_jpeg(file, picture, jpeg_quality);
}

Outcome<Written> make_folder(const std::string& folder) {
    std::error_code fault;
    std::filesystem::create_directories(folder, fault);
    if (fault || !std::filesystem::is_directory(folder, fault)) {
        return Refusal{"write", "io", folder + ": the folder cannot be made",
                       "name a folder that may be written"};
    }
    return Written{folder};
}

std::string numbered_stem(std::size_t index, const std::string& file) {
    std::array<char, 32> number{};
    std::snprintf(number.data(), number.size(), "%04zu-", index + 1);
    return number.data() + std::filesystem::path(file).stem().string();
}

}  // namespace ridgetally

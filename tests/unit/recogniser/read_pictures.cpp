// Reads the pictures of a list (scripts/train/held_out.py) and prints one line of figures for each:
//   recogniser_read MODELS LIST
// id family/worked stitch_ratio row_ratio confidence score final_score rival_score repeats said_family
// said_round ms
#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <numbers>
#include <sstream>
#include <string>

#include "catalog/catalog.h"
#include "core/stitch.h"
#include "recogniser/recognise.h"

namespace {

using namespace ridgetally;

cv::Mat read_pgm(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    std::string magic;
    int width = 0;
    int height = 0;
    int most = 0;
    in >> magic >> width >> height >> most;
    in.get();
    cv::Mat grey(height, width, CV_8UC1);
    in.read(grey.ptr<char>(), static_cast<std::streamsize>(grey.total()));
    return grey;
}

using Heights = std::array<HeightToWidthPrior, recognised_family_count - 1>;

Heights published_heights(const std::filesystem::path& models) {
    const auto catalog = load_catalog(models).value();
    Heights heights;
    for (int k = 0; k < stitch_family_count; ++k) {
        const auto& h = facts_of(catalog, static_cast<StitchFamily>(k)).height_to_width;
        heights.at(static_cast<std::size_t>(k)) = {h.mean, std::max(0.15, h.std / h.mean)};
    }
    return heights;
}

std::string said(const FabricReading& reading, const Heights& heights) {
    const auto family =
        family_given_height(reading.family, reading.row_pitch_px / reading.stitch_pitch_px, heights);
    const auto best = std::max_element(family.begin(), family.end()) - family.begin();
    if (best >= stitch_family_count) return "other";
    return std::string(key_of(static_cast<StitchFamily>(best)));
}

void read_line(const Recogniser& recogniser, const Heights& heights, const std::string& line) {
    std::istringstream in(line);
    std::string id, path, label;
    double stitch = 0.0, row = 0.0, direction = 0.0;
    int modulo = 90;
    in >> id >> path >> stitch >> row >> direction >> modulo >> label;
    RecogniseOptions options;
    options.rows = modulo == 90    ? RowKnowledge::modulo_90
                   : modulo == 180 ? RowKnowledge::modulo_180
                                   : RowKnowledge::none;
    options.row_direction_rad = direction * std::numbers::pi / 180.0;
    in >> options.least_stitch_px >> options.most_stitch_px;
    if (!in) {
        options.least_stitch_px = 8.0;
        options.most_stitch_px = 120.0;
    }
    const cv::Mat picture = read_pgm(path);
    const auto start = std::chrono::steady_clock::now();
    const auto out = recognise(recogniser, picture, {}, options);
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    if (!out) {
        std::printf("%s %s 0 0 0 0 0 0 0 none 0 %.0f\n", id.c_str(), label.c_str(), took.count());
        return;
    }
    const auto& e = out->evidence;
    std::printf("%s %s %.4f %.4f %.4f %.4f %.4f %.4f %.2f %s %.3f %.0f\n", id.c_str(), label.c_str(),
                stitch > 0 ? out->best.stitch_pitch_px / stitch : 0.0,
                row > 0 ? out->best.row_pitch_px / row : 0.0, out->confidence, e.score, e.final_score,
                e.rival_score, e.repeats, said(out->best, heights).c_str(), out->best.round, took.count());
}

}  // namespace

int main(int count, char** words) {
    if (count < 3) return 64;
    const auto recogniser = load_recogniser(std::filesystem::path(words[1]) / "recogniser");
    if (!recogniser) {
        std::cerr << recogniser.refusal().message << '\n';
        return 66;
    }
    const Heights heights = published_heights(words[1]);
    std::ifstream list(words[2]);
    for (std::string line; std::getline(list, line);) read_line(*recogniser, heights, line);
    return 0;
}

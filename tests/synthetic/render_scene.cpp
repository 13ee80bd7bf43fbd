// Renders development photos with exact truth: see README.md beside this file.

#include <CLI/CLI.hpp>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <iostream>

#include "synthetic/crown_scene.h"
#include "synthetic/refusals.h"
#include "synthetic/sample_scenes.h"
#include "synthetic/truth_json.h"

namespace rs = ridgetally::synthetic;

namespace {

struct Options {
    std::uint64_t seed = 1;
    int count = 16;
    std::string out = "renders";
    std::string kind = "swatch";
    std::string stitch;
    std::string worked;
    std::string ruler;
    std::string company = "none";
    rs::Variety variety;
};

rs::RulerMake ruler_make(const std::string& name) {
    static const std::map<std::string, rs::RulerMake> names{
        {"steel", rs::RulerMake::steel}, {"wood", rs::RulerMake::wood},   {"clear", rs::RulerMake::clear},
        {"tape", rs::RulerMake::tape},   {"black", rs::RulerMake::black}, {"white", rs::RulerMake::white}};
    return names.at(name);
}

rs::Shot shot_of(const Options& o, int i) {
    const std::uint64_t seed = o.seed + static_cast<std::uint64_t>(i);
    if (o.kind == "swatch") return rs::random_swatch(seed, o.variety);
    if (o.kind == "crown") return rs::random_crown(seed, o.variety);
    const auto& kinds = rs::refusal_kinds();
    const std::string kind =
        o.kind == "refuse" ? kinds[static_cast<std::size_t>(seed) % kinds.size()] : o.kind;
    return rs::random_refusal(seed, kind, o.variety);
}

int write_samples(const std::string& folder) {
    std::filesystem::create_directories(folder);
    for (const rs::Sample& sample : rs::sample_scenes()) {
        const rs::Picture picture = rs::render(sample.shot.scene);
        rs::write_file(folder + "/" + sample.name + ".jpg", rs::jpeg_bytes(picture.bgr, sample.shot.jpeg));
        std::ofstream(folder + "/" + sample.name + ".truth.json")
            << rs::sample_truth(sample, picture.truth).dump(1) << '\n';
    }
    return 0;
}

int run(const Options& o) {
    if (o.kind == "samples") return write_samples(o.out);
    std::filesystem::create_directories(o.out);
    nlohmann::json cases = nlohmann::json::array();
    for (int i = 0; i < o.count; ++i) {
        const auto start = std::chrono::steady_clock::now();
        const rs::Shot shot = shot_of(o, i);
        const rs::Picture picture = rs::render(shot.scene);
        const std::string id = (o.kind == "swatch" ? "s" : (o.kind == "crown" ? "c" : "r")) +
                               std::to_string(o.seed + static_cast<std::uint64_t>(i));
        rs::write_file(o.out + "/" + id + ".jpg", rs::jpeg_bytes(picture.bgr, shot.jpeg));
        for (const auto& c : rs::cases_of(id, id + ".jpg", shot, picture.truth)) cases.push_back(c);
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
        std::cerr << id << ' ' << shot.kind << ' ' << took.count() << " s\n";
    }
    std::ofstream(o.out + "/cases.json")
        << nlohmann::json{{"note", "rendered; truth exact by construction"}, {"cases", cases}}.dump(1)
        << '\n';
    return 0;
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App app("Renders swatch photographs with exact truth for development and tests");
    Options o;
    app.add_option("--seed", o.seed, "first seed; photo i has seed + i");
    app.add_option("--count", o.count, "number of photos");
    app.add_option("--out", o.out, "folder for the photos and cases.json");
    app.add_option("--kind", o.kind,
                   "swatch, crown, refuse (every kind in turn), one refusal kind, or samples (the pictures "
                   "of samples/)");
    app.add_option("--stitch", o.stitch, "sc, sc-blo, hdc, dc, tr, stockinette (default: drawn)");
    app.add_option("--worked", o.worked, "flat or round (default: drawn)");
    app.add_option("--ruler", o.ruler, "steel, wood, clear, tape, black, white (default: drawn)");
    app.add_option("--megapixels", o.variety.megapixels, "size of the photos");
    app.add_option("--max-tilt", o.variety.max_tilt_deg, "largest tilt of the camera, degrees");
    app.add_option("--max-unevenness", o.variety.max_unevenness,
                   "largest relative scatter of single stitches");
    app.add_option("--laid-on", o.variety.laid_on_share, "share of photos with the ruler laid on the swatch");
    app.add_option("--laid-on-reach", o.variety.laid_on_reach,
                   "where it then lies: 0.62 over an edge (default), 0.1 across the middle");
    app.add_option("--partial", o.variety.partial_share, "share of photos whose frame cuts the swatch");
    app.add_option("--company", o.company,
                   "what else lies there: hook-on, hook-beside, fingers, tail-across, tail-loop");
    CLI11_PARSE(app, argc, argv);
    try {
        o.variety.company = rs::company_from(o.company).value();
        if (!o.stitch.empty()) o.variety.family = ridgetally::stitch_family_from(o.stitch).value();
        if (!o.worked.empty()) o.variety.worked = ridgetally::worked_from(o.worked).value();
        if (!o.ruler.empty()) o.variety.ruler = ruler_make(o.ruler);
        return run(o);
    } catch (const std::exception& e) {
        std::cerr << "render_scene: " << e.what() << '\n';
        return 1;
    }
}

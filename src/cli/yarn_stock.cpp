#include <memory>
#include <optional>
#include <vector>

#include "cli/advice_values.h"
#include "cli/streams.h"
#include "cli/yarn_commands.h"
#include "cli/yarn_values.h"
#include "report/one_line.h"
#include "report/yarn_words.h"
#include "yarns/fault.h"
#include "yarns/stock.h"

namespace ridgetally {
namespace {

constexpr const char* add_examples = R"(Examples:
  ridgetally yarn add "Fennelwick DK, Moss"
  ridgetally yarn add "Oddmere Four, Cream" --weight 1 --fibre "wool" --balls 4 --ball-mass 50g
      --ball-length 210m --band crochet:24x28@3mm --dye-lot 2211)";

constexpr const char* edit_examples = R"(Examples:
  ridgetally yarn edit "Oddmere Four, Cream" --balls "2 1/2"
  ridgetally yarn edit "Oddmere Four, Cream" --balls 90g            (weighed)
  ridgetally yarn edit "Oddmere Four, Cream" --name "Oddmere Four, Cream, lot 2211"
  ridgetally yarn edit "Oddmere Four, Cream" --colour "" --balls unknown        (not known any more))";

constexpr const char* use_examples = R"(Examples:
  ridgetally yarn use "Fennelwick DK, Moss" "1 1/2"
  ridgetally yarn use "Fennelwick DK, Moss" 40g)";

/// Changes that the options ask for, in the order they were given.
class YarnChanges {
  public:
    using Change = std::function<Outcome<Yarn>(Yarn)>;
    void add(Change change) { changes_.push_back(std::move(change)); }
    [[nodiscard]] Outcome<Yarn> applied_to(Yarn yarn) const {
        for (const auto& change : changes_) {
            auto changed = change(std::move(yarn));
            if (!changed) return changed;
            yarn = std::move(changed).value();
        }
        return yarn;
    }
    [[nodiscard]] bool empty() const { return changes_.empty(); }

  private:
    std::vector<Change> changes_;
};

/// What an option gets where the maker says that it is not known any more; a text gets "".
constexpr const char* unknown = "unknown";

struct YarnArguments {
    std::string record;
    std::string name;
    YarnChanges changes;
    std::optional<Amount> balls;
};

void add_text(CLI::App& command, YarnArguments& arguments, const char* option, const char* help,
              std::string Yarn::*field) {
    command
        .add_option_function<std::string>(
            option,
            [&arguments, field](const std::string& text) {
                arguments.changes.add([text, field](Yarn yarn) -> Outcome<Yarn> {
                    yarn.*field = text;
                    return yarn;
                });
            },
            help)
        ->type_name("TEXT")
        ->group("Yarn");
}

/// An option whose value is read by `read`, or taken away by "unknown".
template <typename Field, typename Read>
void add_value(CLI::App& command, YarnArguments& arguments, const char* option, const char* type,
               const char* help, Field Yarn::*field, Read read) {
    command
        .add_option_function<std::string>(
            option,
            [&arguments, field, read](const std::string& text) {
                const Field value = text == unknown ? Field{} : Field{read(text)};
                arguments.changes.add([value, field](Yarn yarn) -> Outcome<Yarn> {
                    yarn.*field = value;
                    return yarn;
                });
            },
            help)
        ->type_name(type)
        ->group("Yarn");
}

/// The amount is turned into balls last, when what is on a ball is known.
Outcome<Yarn> with_balls(Yarn yarn, const std::optional<Amount>& amount) {
    if (!amount) return yarn;
    yarn.balls = in_balls(*amount, yarn);
    if (yarn.balls) return yarn;
    return Refusal{record_stage, "unknown-amount",
                   "what one ball of \"" + yarn.name + "\" holds is not known",
                   "tell it too, with --ball-mass or --ball-length, or give balls"};
}

Outcome<Yarn> without_balls(Yarn yarn) {
    yarn.balls.reset();
    return yarn;
}

void add_yarn_options(CLI::App& command, YarnArguments& arguments) {
    add_value(command, arguments, "--weight", "0-7", "Category, 0 lace to 7 jumbo (Craft Yarn Council)",
              &Yarn::weight_category, values::yarn_category);
    add_text(command, arguments, "--fibre", "What it is made of", &Yarn::fibre);
    add_text(command, arguments, "--colour", "Colour", &Yarn::colour);
    add_text(command, arguments, "--dye-lot", "Dye lot", &Yarn::dye_lot);
    add_value(command, arguments, "--ball-mass", "MASS", "Mass of one ball, as in 50g or 1.75oz",
              &Yarn::ball_g, values::mass_g);
    add_value(command, arguments, "--ball-length", "LENGTH", "Yarn on one ball, as in 120m or 130yd",
              &Yarn::ball_m, values::yarn_length_m);
    command
        .add_option_function<std::string>(
            "--balls",
            [&arguments](const std::string& text) {
                if (text != unknown) arguments.balls = values::amount(text);
                if (text == unknown) arguments.changes.add(without_balls);
            },
            "What is left: balls, or a mass or length, as in \"2 1/2\", 90g or 300m")
        ->type_name("AMOUNT")
        ->group("Yarn");
    add_value(command, arguments, "--band", "CRAFT:GAUGE[@TOOL]",
              "Gauge on the ball band, as in crochet:14x16@4.5mm or knit:22x28/4in", &Yarn::band,
              values::band);
    add_text(command, arguments, "--notes", "Anything else", &Yarn::notes);
    add_record_option(command, arguments.record);
}

CLI::App& add_named(CLI::App& yarn, const char* command, const char* description, std::string& name) {
    auto* added = yarn.add_subcommand(command, description);
    added->add_option("NAME", name, "Name of the yarn, as you like it")->required()->type_name("");
    return *added;
}

ExitStatus say(const std::string& what, const Yarn& yarn) {
    return write_output(what + " \"" + one_line(yarn.name) + "\"; left: " + left_text(yarn) + "\n");
}

ExitStatus run_add(const YarnArguments& arguments) {
    return with_record(arguments.record, Access::change, [&](const Record& record) -> Outcome<ExitStatus> {
        Yarn yarn;
        yarn.name = arguments.name;
        yarn.added = today();
        const auto told = arguments.changes.applied_to(yarn);
        if (!told) return told.refusal();
        const auto whole = with_balls(*told, arguments.balls);
        if (!whole) return whole.refusal();
        const auto added = add_yarn(record, *whole);
        if (!added) return added.refusal();
        return say("Added", *whole);
    });
}

ExitStatus run_edit(const YarnArguments& arguments) {
    if (arguments.changes.empty() && !arguments.balls) {
        complain("yarn edit: nothing to change was told (see ridgetally yarn edit --help)");
        return ExitStatus::usage;
    }
    return with_record(arguments.record, Access::change, [&](const Record& record) -> Outcome<ExitStatus> {
        const auto changed = change_yarn(record, arguments.name, [&](Yarn yarn) -> Outcome<Yarn> {
            const auto told = arguments.changes.applied_to(std::move(yarn));
            return told ? with_balls(*told, arguments.balls) : told;
        });
        if (!changed) return changed.refusal();
        return say("Changed", *changed);
    });
}

struct UseArguments {
    std::string record;
    std::string name;
    Amount used;
};

ExitStatus run_use(const UseArguments& arguments) {
    return with_record(arguments.record, Access::change, [&](const Record& record) -> Outcome<ExitStatus> {
        const auto yarn = use_yarn(record, arguments.name, arguments.used);
        if (!yarn) return yarn.refusal();
        return say("Used some of", *yarn);
    });
}

}  // namespace

void add_stock_commands(CLI::App& yarn, CommandsByName& commands) {
    const auto adding = std::make_shared<YarnArguments>();
    CLI::App& add =
        add_named(yarn, "add", "Put a yarn into the record; its name alone is enough", adding->name);
    add_yarn_options(add, *adding);
    add.footer(add_examples);
    commands["add"] = [adding] { return run_add(*adding); };

    const auto editing = std::make_shared<YarnArguments>();
    CLI::App& edit = add_named(yarn, "edit", "Change what the record says of a yarn", editing->name);
    add_text(edit, *editing, "--name", "A new name", &Yarn::name);
    add_yarn_options(edit, *editing);
    edit.footer(edit_examples);
    commands["edit"] = [editing] { return run_edit(*editing); };

    const auto using_up = std::make_shared<UseArguments>();
    CLI::App& use = add_named(yarn, "use", "Take off what you have used", using_up->name);
    use.add_option_function<std::string>(
           "AMOUNT", [using_up](const std::string& text) { using_up->used = values::amount(text); },
           "Balls, or a mass or length, as in \"1 1/2\", 40g or 95m")
        ->required()
        ->type_name("");
    add_record_option(use, using_up->record);
    use.footer(use_examples);
    commands["use"] = [using_up] { return run_use(*using_up); };
}

}  // namespace ridgetally

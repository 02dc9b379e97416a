// A C++ program that embeds the installed library, from its header alone: a shipped recipe worked in two
// threads at once, in whatever locale LC_ALL names, with the result of the C locale.
#include <lemel.h>

#include <clocale>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <memory>
#include <string>
#include <thread>

namespace {

struct end_engine {
    void operator()(lml_engine *engine) const { lml_engine_free(engine); }
};
using engine_owner = std::unique_ptr<lml_engine, end_engine>;

[[noreturn]] void fail(const lml_error &error)
{
    char text[LML_ERROR_TEXT];
    lml_error_text(&error, text, sizeof text);
    std::cerr << text;
    std::exit(1);
}

void put_folder(lml_engine *engine, lml_put what, const std::filesystem::path &folder)
{
    for (const auto &entry : std::filesystem::directory_iterator(folder)) {
        std::ifstream stream(entry.path(), std::ios::binary);
        const std::string text{std::istreambuf_iterator<char>(stream), {}};
        lml_error error;
        if (lml_engine_put(engine, what, entry.path().stem().c_str(), text.data(), text.size(),
                           entry.path().c_str(), &error) != LML_OK)
            fail(error);
    }
}

engine_owner make_engine(const std::filesystem::path &data)
{
    lml_engine_options options = {};
    options.limits.steps = 10000000;
    engine_owner engine(lml_engine_new(&options));
    if (!engine)
        std::exit(1);
    put_folder(engine.get(), LML_PUT_SCRIPT, data / "scripts");
    put_folder(engine.get(), LML_PUT_RECIPE, data / "recipes");
    return engine;
}

std::string work(lml_engine *engine)
{
    static const std::string job =
        R"({ "recipe": "need", "given": { "wax": "2.53 g", "sprues": "1.2 g",
              "metal": { "composition": { "Au": "750 ‰", "Ag": "125 ‰", "Cu": "125 ‰" }, "density": "15.4 g/cm3" } },
              "house": { "button": "9.5 g", "crucible": "40 mL" } })";
    lml_text result;
    lml_error error;
    if (lml_engine_run(engine, job.data(), job.size(), "job.json", &result, &error) != LML_OK)
        fail(error);
    std::string text(result.text, result.length);
    lml_text_free(engine, &result);
    return text;
}

} // namespace

int main(int words, char **word)
{
    if (words != 2)
        return 64;
    const std::filesystem::path data = word[1];
    const std::string expected = work(make_engine(data).get()); // in the C locale
    if (!std::setlocale(LC_ALL, ""))
        return 66;
    bool same[2] = {false, false};
    std::thread thread[2];
    for (int i = 0; i < 2; i++)
        thread[i] = std::thread([&data, &expected, &same, i] {
            const engine_owner engine = make_engine(data);
            same[i] = work(engine.get()) == expected && work(engine.get()) == expected;
        });
    for (auto &t : thread)
        t.join();
    std::printf("the program writes %.1f, the library the same as ever: %s\n", 0.5, same[0] && same[1] ? "yes" : "no");
    std::cout << expected << '\n';
    return same[0] && same[1] ? 0 : 1;
}

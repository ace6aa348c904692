// The interface as a C++ program would use it: texts as string views, arrays as vectors, a failure as an exception.
#include <shophead.h>

#include <array>
#include <iostream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace {

std::string_view view(shophead_text text) { return {text.start, text.length}; }

void must(shophead_error error) {
    if (error != SHOPHEAD_OK) {
        std::array<char, SHOPHEAD_TEXT_MAX> sentence{};
        std::size_t length = 0;
        shophead_error_message(error, sentence.data(), sentence.size(), &length);
        throw std::runtime_error(std::string(sentence.data(), length));
    }
}

shophead_part part(std::string_view number) {
    shophead_part part{};
    std::uint32_t warnings = 0;
    must(shophead_part_parse(number.data(), number.size(), &part, &warnings));
    return part;
}

shophead_layer layer(std::string_view thickness, std::string_view material) {
    shophead_layer layer{};
    must(shophead_toleranced_parse(thickness.data(), thickness.size(), &layer.thickness));
    must(shophead_material_parse(material.data(), material.size(), &layer.material));
    layer.role = SHOPHEAD_ROLE_SKIN;
    layer.preparation = SHOPHEAD_PREPARATION_PLAIN;
    return layer;
}

} // namespace

int main() {
    const std::vector<shophead_layer> layers = {layer(".032", "clad 2024-T3"), layer(".040", "clad 2024-T3")};
    shophead_hole_query query{};
    query.part = part("MS20470AD4");
    query.layers = layers.data();
    query.layer_count = layers.size();
    query.edge_nm = 9525000;
    query.pitch_nm = 19050000;
    query.transverse_pitch_nm = SHOPHEAD_NONE;
    query.rows = 1;
    query.member = SHOPHEAD_MEMBER_SKIN;
    query.practice.built_in = SHOPHEAD_BUILT_IN_HANDBOOK;
    const shophead_hole found{3581400, 3302000, SHOPHEAD_DAMAGE_SOUND, 0};

    shophead_hole_judgement judgement{};
    std::array<shophead_step, SHOPHEAD_MAX_STEPS> steps{};
    std::vector<shophead_finding> findings(SHOPHEAD_MAX_HOLE_FINDINGS);
    must(shophead_hole_judge(&query, &found, &judgement, steps.data(), steps.size(), findings.data(), findings.size()));
    for (std::uint32_t index = 0; index < judgement.steps; ++index) {
        const shophead_step &step = steps[index];
        shophead_text word{};
        must(shophead_word(SHOPHEAD_LIST_DISPOSITION, step.kind, &word));
        std::cout << view(word) << (step.does != 0 ? ": yes" : ": no") << '\n';
        for (std::uint32_t place = step.findings.first; place < step.findings.first + step.findings.count; ++place) {
            must(shophead_word(SHOPHEAD_LIST_CODE, findings[place].code, &word));
            std::cout << "  " << view(word) << '\n';
        }
    }
    try {
        static_cast<void>(part("MS20470AD7-5"));
        return 1;
    } catch (const std::runtime_error &error) {
        std::cout << error.what() << '\n';
    }
    return 0;
}

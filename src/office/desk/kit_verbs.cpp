#include "office/call/adding.h"

#include <algorithm>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;
using session::Session;

namespace {

constexpr int mostIrradiance = 5000; // mW/cm2, as hand-held meters show it
constexpr int longestSeconds = 600;

Result<Exit> addLight(const Call& call, const Surroundings& around) {
  kit::Light light{.tag = call.text("--tag"), .makersLeast = {}, .baseline = {}, .meter = ""};
  if (const auto word = call.textIfAny("--type")) {
    const auto type = wordOf<kit::LightType>("--type", *word);
    if (!type) return type.error();
    light.type = *type;
  }
  const auto least = call.whole("--makers-least", 0, mostIrradiance);
  if (!least) return least.error();
  light.makersLeast = {least->value_or(0)};
  const auto baseline = call.whole("--baseline", 0, mostIrradiance);
  if (!baseline) return baseline.error();
  light.baseline = {baseline->value_or(0)};
  light.baselineWithSleeve = !call.has("--without-sleeve");
  light.meter = call.text("--meter");
  return adding("light", light.tag, call, around,
                [&](Session& session, base::By by) { return session.enterLight(by, light); });
}

Result<Exit> addLot(const Call& call, const Surroundings& around) {
  const auto kind = wordOf<kit::MaterialKind>("--kind", call.text("--kind"));
  if (!kind) return kind.error();
  const auto expiry = base::parseExpiry(call.text("--expiry"));
  if (!expiry) return Error{expiry.error().code, "--expiry: " + expiry.error().detail};
  const auto seconds = call.whole("--makers-time", 0, longestSeconds);
  if (!seconds) return seconds.error();
  const auto contains = wordsOf<kit::Contains>("--contains", call.text("--contains"));
  if (!contains) return contains.error();
  const kit::Lot lot{.kind = *kind,
                     .material = call.text("--material"),
                     .lot = call.text("--lot"),
                     .expiry = *expiry,
                     .makersTime = base::Seconds(seconds->value_or(0)),
                     .contains = *contains,
                     .quarantineReason = ""};
  return adding("lot", kit::shown(lot), call, around,
                [&](Session& session, base::By by) { return session.enterLot(by, lot); });
}

Result<Exit> addCureTime(const Call& call, const Surroundings& around) {
  const auto seconds = call.whole("--seconds", 1, longestSeconds);
  if (!seconds) return seconds.error();
  const auto tag = call.text("--light");
  const auto material = call.text("--material");
  return adding(
      "cure time", tag + " with " + material, call, around,
      [&](Session& session, base::By by) -> Result<kit::CureTimeId> {
        const auto light = lightTagged(session, tag);
        if (!light) return light.error();
        const auto lots = session.lots();
        if (!lots) return lots.error();
        if (std::ranges::none_of(*lots,
                                 [&](const auto& row) { return row.value.material == material; }))
          return Error{ErrorCode::notFound, "there is no lot of " + material + "; add it first"};
        return session.enterCureTime(by, {light->id, material, base::Seconds(**seconds)});
      });
}

} // namespace

std::vector<Verb> kitVerbs() {
  return {
      {{"add-light", "FILE", "adds a curing light",
        writing({{"--tag", "TAG", "the program's name for it, such as L-1", true},
                 {"--type", "WORD", "LED (usual), halogen, other"},
                 {"--makers-least", "N", "manufacturer's minimum output, mW/cm2"},
                 {"--baseline", "N", "first good reading, mW/cm2"},
                 {"--meter", "TAG", "the meter of the baseline"},
                 {"--without-sleeve", "", "the baseline was read without a sleeve"}})},
       addLight},
      {{"add-lot", "FILE", "adds a lot of a material",
        writing(
            {{"--kind", "WORD", "light-cure sealant, etchant, varnish ...", true},
             {"--material", "NAME", "the program's own name for it", true},
             {"--lot", "NUMBER", "as on the package", true},
             {"--expiry", "DATE", "or year and month, 2027-04", true},
             {"--makers-time", "SECONDS", "minimum cure, set or etch time"},
             {"--contains", "WORDS", "acrylate, rosin, latex, fluoride; separated by commas"}})},
       addLot},
      {{"add-cure-time", "FILE", "adds the manufacturer's cure time for a light and a material",
        writing({{"--light", "TAG", "the light", true},
                 {"--material", "NAME", "the sealant", true},
                 {"--seconds", "N", "for each cure", true}})},
       addCureTime},
  };
}

} // namespace gk::office

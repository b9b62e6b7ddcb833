#include "plan/names.h"

#include "plan/county.h"

#include <array>
#include <string_view>

namespace gk::demo {

namespace {

// Made up for this demo out of plain words. 61 and 67 have no common factor, so that the pairs
// repeat only after 4,087 children.
constexpr std::array<std::string_view, 61> firstNames{
    "Abelie", "Aldo",   "Anwen",   "Arlo",   "Bettany", "Birk",   "Briony",  "Caspia", "Cobin",
    "Corrie", "Dacey",  "Della",   "Dorrin", "Edda",    "Elric",  "Emlyn",   "Esme",   "Fabian",
    "Ferrin", "Fia",    "Gilda",   "Greer",  "Hadley",  "Hollis", "Ilka",    "Imre",   "Isolde",
    "Jarek",  "Jessa",  "Joss",    "Kaia",   "Kerrin",  "Lark",   "Leopold", "Linnet", "Lorcan",
    "Maris",  "Merrin", "Milo",    "Nerys",  "Noor",    "Odile",  "Orrin",   "Paloma", "Perrin",
    "Quill",  "Rafi",   "Rhoswen", "Rowan",  "Sabra",   "Sefa",   "Sorrel",  "Tamar",  "Teague",
    "Thea",   "Ulla",   "Verity",  "Wilkin", "Xanthe",  "Yara",   "Zoltan"};

constexpr std::array<std::string_view, 67> lastNames{
    "Applemere",    "Ashwhistle",  "Barleymoor",   "Beckthorn",   "Birchhollow", "Bramblegate",
    "Brightfennel", "Candlequill", "Cinderby",     "Cloverdyke",  "Copperlane",  "Cricklemoss",
    "Dapplefield",  "Dewbarrow",   "Driftmarsh",   "Eelgrass",    "Emberlow",    "Feathergill",
    "Fernacre",     "Flaxbourne",  "Foxwillow",    "Gableford",   "Gorsedene",   "Greywillow",
    "Harrowmint",   "Hazelquay",   "Heronsby",     "Honeycroft",  "Inkmeadow",   "Ivyfell",
    "Juniperly",    "Kestrelow",   "Kindlewood",   "Lanternby",   "Larchmead",   "Lavenderson",
    "Lindencote",   "Loamsworth",  "Marigold-Fen", "Meadowlane",  "Millrace",    "Mossgrove",
    "Nettlewharf",  "Oakenshade",  "Otterlane",    "Palmshingle", "Pebblequay",  "Pinecrest-Hay",
    "Puddlemint",   "Quartzley",   "Reedmoor",     "Rookpebble",  "Rushlantern", "Saffronby",
    "Sandpiper",    "Sedgewater",  "Silverbank",   "Sparrowdean", "Tarnhollow",  "Thistlegate",
    "Umberlark",    "Vetchlane",   "Waxwing",      "Wickerby",    "Willowherb",  "Yarrowdale",
    "Zephyrine"};

constexpr std::array<std::string_view, 7> guardianNames{"Ada",  "Bruno", "Celia", "Dov",
                                                        "Elke", "Farid", "Gwen"};
constexpr std::array<std::string_view, 5> languages{"English", "English", "English", "Spanish",
                                                    "English"};

} // namespace

std::string roomOf(const std::string& grade, std::size_t number) {
  const std::string letter = number % 2 == 0 ? "a" : "b";
  return grade + letter;
}

vault::Identity inventedIdentity(std::size_t number, int birthYear, const std::string& room) {
  const auto month = static_cast<unsigned>(1 + (number * 7) % 12);
  const auto day = static_cast<unsigned>(1 + (number * 11) % 28);
  const int year = month >= 9 ? birthYear - 1 : birthYear;
  const std::string last(lastNames.at(number % lastNames.size()));
  const std::string phone = "000-555-" + std::to_string(1000 + number % 9000);
  return {.first = std::string(firstNames.at(number % firstNames.size())),
          .last = last,
          .birth = on(year, month, day),
          .room = room,
          .teacher = "room " + room,
          .guardians = {
              {.name = std::string(guardianNames.at(number % guardianNames.size())) + " " + last,
               .relation = number % 3 == 0 ? "father" : "mother",
               .phone = phone,
               .language = std::string(languages.at(number % languages.size()))}}};
}

} // namespace gk::demo

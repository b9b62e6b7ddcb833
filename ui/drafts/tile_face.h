#pragma once

#include "dentition/surfaces.h"

#include <QString>

#include <optional>

namespace gk::ui {

/// What a tile of the mouth map is drawn as; each has its own shape and its own word.
enum class Mark {
  blank,     ///< not looked at yet
  notUp,     ///< dashed, empty
  partUp,    ///< half height, wave line
  sound,     ///< plain outline
  seal,      ///< thick outline, arrow in
  sealEarly, ///< the same and a dot
  refer,     ///< notched corner
  filled,    ///< hatched block
  crown,     ///< double outline
  gone,      ///< crossed
  whole,     ///< solid band
  part,      ///< band with a gap
  lost,      ///< band outline
  elsewhere, ///< band with a ring
  interim,   ///< dotted band
  frosty,    ///< band outline on dots: etched and dry
  placed,    ///< filled band with a rim: not cured yet
  cured,     ///< solid band with a thin core: not checked yet
  done,      ///< tick
  wet,       ///< drop
  stopped    ///< bar
};

/// One tooth as it is shown: all words ready, nothing left to decide.
struct TileFace {
  dentition::Tooth tooth;
  QString number; ///< in the program's notation
  Mark mark = Mark::blank;
  QString word{};                             ///< "SEAL", "unerupted"
  QString strip{};                            ///< decision or step, one short line
  dentition::SurfaceSet chosen{};             ///< outlined thick: to be sealed
  dentition::SurfaceSet covered{};            ///< filled: cured today
  dentition::SurfaceSet due{};                ///< what the step that comes now is about
  std::optional<dentition::Surface> picked{}; ///< the cursor stands on this one alone
  bool inHand = false;                        ///< in the field that is being worked on
  bool isNext = false;                        ///< to be isolated now
  bool quiet = false;                         ///< nothing to work on: drawn so that it recedes
  QString spoken{}; ///< for reading aloud: "Upper right first: sound, seal occlusal and lingual."
};

} // namespace gk::ui

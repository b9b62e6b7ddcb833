#pragma once

#include "session/values/views.h"

#include <QString>
#include <QStringList>

namespace gk::ui {

/// "ALLERGY: acrylate", "ASK: asthma".
QString flagName(const roster::MedicalFlag& flag);
/// "ALLERGY: acrylate, swelling last year", "STOP: heart condition".
QString flagWords(const roster::MedicalFlag& flag);

/// One line for each unresolved flag of this kind.
QStringList flagLines(const session::IdentityCard& card, roster::FlagAction action);
/// The same without what was said of each.
QStringList flagNames(const session::IdentityCard& card, roster::FlagAction action);

/// "Sealants: NO, withdrawn 10:42, by phone".
QString standingLine(const QString& service, const roster::Standing& standing);

/// The alert when another child is called the same; empty when none is.
QString sameNameLine(const session::IdentityCard& card);

} // namespace gk::ui

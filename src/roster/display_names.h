#pragma once

#include "roster/child/display_names.h"
#include "roster/consent/display_names.h"
#include "roster/days/display_names.h"
#include "roster/keys/display_names.h"
#include "roster/list/display_names.h"
#include "roster/program/display_names.h"
#include "roster/team/display_names.h"

/// What a person reads for each value, of all the rooms.

// MOVED by the lead to core/quantity/number_text.h (namespace washfast). Include that; this file goes away.
#pragma once
#include "core/quantity/number_text.h"

// The whole reasoning of an answer on paper: the verdict and why, the table of factors, the pictures, the next prints.
#pragma once

#include "core/causes/next_prints.h"

#include <QFont>
#include <QImage>

class QAbstractItemModel;

namespace washfast::ui {

struct Reasoning {
    QString heading;
    const causes::Answer& answer;
    const causes::NextPrints& next;
    QString next_says;
    const QAbstractItemModel& factors;
    QList<QImage> pictures;
};

[[nodiscard]] QByteArray reasoningPdf(const Reasoning& reasoning, QFont font);

} // namespace washfast::ui

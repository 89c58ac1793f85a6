// Net density of the prints of one mix against its age when they were coated: small, painted, with its numbers as text
// for a screen reader.
#pragma once

#include "core/chemistry/mix_record.h"
#include "ui/common/theme.h"

#include <QWidget>

namespace washfast::ui {

class AgePlot : public QWidget {
    Q_OBJECT

public:
    explicit AgePlot(const Theme& theme, QWidget* parent = nullptr);

    void setPoints(std::vector<chemistry::AgePoint> points);
    void setTheme(const Theme& theme);
    [[nodiscard]] const std::vector<chemistry::AgePoint>& points() const { return points_; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    Theme theme_;
    std::vector<chemistry::AgePoint> points_;
};

} // namespace washfast::ui

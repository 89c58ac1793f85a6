// What a mix is made of beside the published formulas: one axis a number, each formula a shape of its own, the mix
// a large mark with its value. Nothing is told by colour alone.
#pragma once

#include "core/chemistry/audit.h"
#include "ui/common/theme.h"

#include <QWidget>

class QPainter;

namespace washfast::ui::mixing {

class CompositionPicture : public QWidget {
    Q_OBJECT

public:
    explicit CompositionPicture(const Theme& theme, QWidget* parent = nullptr);

    /// `planned`: nothing was weighed yet, and the mark is hollow.
    void setAudit(const chemistry::Audit& audit, bool planned);
    void setTheme(const Theme& theme);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    struct Mark {
        int shape;
        double value;
    };
    struct Axis {
        QString title;
        double low, high;
        bool logarithmic;
        std::optional<std::pair<double, double>> good; // the published range, or the target's
        std::vector<double> ticks;
        std::vector<Mark> published;
        std::optional<double> mix;
        QString unknown; // what is said when the mix has no value here
    };
    [[nodiscard]] std::vector<Axis> axes() const;
    void paintAxis(QPainter& painter, const QRectF& box, const Axis& axis) const;
    void describe();

    Theme theme_;
    chemistry::Audit audit_;
    bool planned_ = true;
};

} // namespace washfast::ui::mixing

// Curves: density against dose and against dryness, each coloured by the other, a map of both, and what was kept; the
// characteristic curve of wedges and strips; the table by which a negative is printed.
#pragma once

#include "ui/common/view.h"
#include "ui/curves/curve_state.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QStackedWidget;
class QTabWidget;
class QVBoxLayout;

namespace washfast::ui {

class EmptyState;
class PrintsChart;
namespace curves {
class CurvePage;
class NegativePage;
}

class CurvesView : public View {
    Q_OBJECT

public:
    explicit CurvesView(const Services& services, QWidget* parent = nullptr);

    [[nodiscard]] QString title() const override { return tr("Curves"); }
    void arrive() override;
    enum class Page { Prints, Characteristic, Negative };
    void showPage(Page page);
    [[nodiscard]] curves::CurvePage* curvePage();
    [[nodiscard]] curves::NegativePage* negativePage();
    void setPlot(Plot plot);
    /// Any two print fields that are numbers, coloured by a third (or by none); keys.
    void setAxes(const QString& x, const QString& y, const QString& colour);
    [[nodiscard]] PrintsChart* chart() const { return chart_; }

public Q_SLOTS:
    void showAgain();
    void save();

private:
    QWidget* buildPrints();
    void buildCurves(); // the second and the third page, once
    void refreshNegative();
    void buildBar(QVBoxLayout& column);
    void buildAxes(QVBoxLayout& column);
    [[nodiscard]] PlotAxes axes() const;
    [[nodiscard]] QString plotTitle() const;
    void tellAbout(int at);

    QTabWidget* tabs_ = nullptr;
    curves::CurvePage* curve_page_ = nullptr;
    curves::NegativePage* negative_page_ = nullptr;
    QComboBox* plot_ = nullptr;
    QWidget* choose_ = nullptr; // shown for Plot::Chosen
    QComboBox* x_ = nullptr;
    QComboBox* y_ = nullptr;
    QComboBox* colour_ = nullptr;
    QCheckBox* x_log_ = nullptr;
    QComboBox* outcome_ = nullptr;
    QLineEdit* filter_ = nullptr;
    QLabel* complaint_ = nullptr;
    QLabel* about_ = nullptr;
    QLabel* counts_ = nullptr;
    QStackedWidget* pages_ = nullptr;
    EmptyState* empty_ = nullptr;
    PrintsChart* chart_ = nullptr;
    Filter kept_filter_;
    bool stale_ = true;
};

} // namespace washfast::ui

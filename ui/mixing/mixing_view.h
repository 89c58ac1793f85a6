// Mixing: from sheets and coat to amounts on the balance, the steps with their cautions, the audit of what was really
// weighed, and the record of the mix with its labels and sheets.
#pragma once

#include "ui/common/view.h"
#include "ui/mixing/mixing_state.h"

class QComboBox;
class QDoubleSpinBox;
class QHBoxLayout;
class QLabel;
class QPushButton;
class QSpinBox;
class QTabWidget;
class QVBoxLayout;

namespace washfast::ui {

namespace mixing {
class CheckPage;
class MakePage;
class WeighPage;
}

class MixingView : public View {
    Q_OBJECT

public:
    explicit MixingView(const Services& services, QWidget* parent = nullptr);
    ~MixingView() override;

    enum class Page { Weigh, Make, Check };

    [[nodiscard]] QString title() const override { return tr("Mixing"); }
    void arrive() override;
    void showPage(Page page);
    void setFormula(const QString& key);
    [[nodiscard]] mixing::MixingState& state() { return state_; }
    [[nodiscard]] mixing::WeighPage* weighPage() const { return weigh_; }
    [[nodiscard]] mixing::MakePage* makePage() const { return make_; }
    [[nodiscard]] mixing::CheckPage* checkPage() const { return check_; }

public Q_SLOTS:
    void keepMix();
    void saveBottleLabel();
    void savePrintLabels();
    void saveRiskSheet();
    void saveTeachingSheet();

private:
    void buildBar(QVBoxLayout& column);
    void buildSheetsMenu(QPushButton& button);
    void readAgain();
    void takeOrder();
    void workAgain();
    void refresh();
    void savePdf(const QString& title, const QString& name, const std::function<Outcome(const QString&)>& write);

    mixing::MixingState state_;
    QComboBox* formula_ = nullptr;
    QLabel* about_ = nullptr;
    QSpinBox* sheets_ = nullptr;
    QSpinBox* width_ = nullptr;
    QSpinBox* height_ = nullptr;
    QDoubleSpinBox* coat_ = nullptr;
    QSpinBox* spare_ = nullptr;
    QComboBox* balance_ = nullptr;
    QLabel* sum_ = nullptr;
    QTabWidget* tabs_ = nullptr;
    mixing::WeighPage* weigh_ = nullptr;
    mixing::MakePage* make_ = nullptr;
    mixing::CheckPage* check_ = nullptr;
    qint64 kept_ = 0; // the mix that was kept last
    bool filling_ = false;
};

} // namespace washfast::ui

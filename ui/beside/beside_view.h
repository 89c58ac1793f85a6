// Side by side: two to eight prints as columns, what differs first, tone pairs on top.
#pragma once

#include "ui/common/view.h"

#include <QTimer>

class QCheckBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QTableView;

namespace washfast::ui {

class BesideModel;
class EmptyState;
class ToneRow;

class BesideView : public View {
    Q_OBJECT

public:
    static constexpr int most = 8;

    explicit BesideView(const Services& services, QWidget* parent = nullptr);

    [[nodiscard]] QString title() const override { return tr("Side by side"); }
    void arrive() override;
    /// The first eight of them.
    void setPrints(const QVector<qint64>& prints);
    [[nodiscard]] BesideModel* model() const { return model_; }

public Q_SLOTS:
    void copyTable();
    /// Compares the photos of two prints: of the chosen columns, else of the first two that have photos.
    void compareColours();

private:
    void follow();
    void fitRows();
    void addTyped();
    void takeOut();

    BesideModel* model_ = nullptr;
    QStackedWidget* pages_ = nullptr;
    EmptyState* empty_ = nullptr;
    QTableView* table_ = nullptr;
    ToneRow* tones_ = nullptr;
    QLineEdit* add_ = nullptr;
    QCheckBox* all_ = nullptr;
    QLabel* count_ = nullptr;
    QPushButton* colours_ = nullptr;
    QTimer fit_; // rows are measured once the columns have their widths
};

} // namespace washfast::ui

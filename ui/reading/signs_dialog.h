// Looks for signs in one photo of a print and lays what it finds before the person, who accepts or rejects each; the
// answer goes on record. Nothing is decided by the program.
//
//     auto* dialog = new SignsDialog(services, print, photo, this);
//     dialog->setAttribute(Qt::WA_DeleteOnClose);
//     dialog->show();
#pragma once

#include "core/density/propose_signs.h"
#include "ui/common/view.h"
#include "ui/reading/signs_sheet.h"

#include <QDialog>

class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QPushButton;
class QTabWidget;
class QTableWidget;
class QVBoxLayout;

namespace washfast::ui {

class PictureBox;
class SheetCanvas;

class SignsDialog : public QDialog {
    Q_OBJECT

public:
    SignsDialog(const Services& services, qint64 print, qint64 photo, QWidget* parent = nullptr);
    ~SignsDialog() override;

    /// A photo is being opened, or signs are being looked for.
    [[nodiscard]] bool working() const;
    [[nodiscard]] SheetCanvas* canvas() const { return canvas_; }
    [[nodiscard]] QTabWidget* pages() const { return pages_; }
    [[nodiscard]] QComboBox* roleBox() const { return role_; }
    [[nodiscard]] QComboBox* brushBox() const { return brush_; }
    [[nodiscard]] QComboBox* beforeBox() const { return before_; }
    [[nodiscard]] QComboBox* shownBox() const { return shown_; }
    [[nodiscard]] QPushButton* lookButton() const { return look_for_; }
    [[nodiscard]] QPushButton* acceptButton() const { return accept_; }
    [[nodiscard]] QPushButton* rejectButton() const { return reject_; }
    [[nodiscard]] QTableWidget* table() const { return table_; }
    [[nodiscard]] WorkBar* workBar() const { return work_; }
    [[nodiscard]] QString says() const; // the headline and what was not found
    [[nodiscard]] const std::optional<density::Proposals>& proposals() const { return proposals_; }

public Q_SLOTS:
    void look();

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void buildMarkPage();
    void buildWhatToLookFor(QVBoxLayout& column);
    void buildSignsPage();
    void fillBefore();
    void chooseBefore();
    void showSheet();
    void marksChanged();
    void take();
    void fillTable();
    void fitRows();
    void fillSentences();
    void showChosen();
    void decide(bool accept);
    [[nodiscard]] int chosenRow() const;
    [[nodiscard]] std::optional<double> brush() const;
    [[nodiscard]] density::SignQuestion question() const;

    Services services_;
    qint64 print_ = 0;
    std::shared_ptr<MarkedSheet> now_, earlier_; // earlier_: before the rinse; may be missing
    bool size_touched_ = false; // typed by the person
    std::optional<density::Proposals> proposals_;
    QString refusal_;
    QTabWidget* pages_ = nullptr;
    SheetCanvas* canvas_ = nullptr;
    QComboBox *shown_ = nullptr, *role_ = nullptr, *brush_ = nullptr, *before_ = nullptr;
    QDoubleSpinBox *angle_ = nullptr, *width_ = nullptr, *height_ = nullptr;
    QPushButton *look_for_ = nullptr, *accept_ = nullptr, *reject_ = nullptr;
    QLabel *hint_ = nullptr, *size_note_ = nullptr, *headline_ = nullptr, *not_found_ = nullptr, *details_ = nullptr;
    QTableWidget* table_ = nullptr;
    PictureBox *sheet_picture_ = nullptr, *sign_picture_ = nullptr;
    WorkBar* work_ = nullptr;
    SheetOpener* opener_ = nullptr;
    QFutureWatcher<std::shared_ptr<Result<density::Proposals>>> watcher_;
    bool looking_ = false;
};

} // namespace washfast::ui

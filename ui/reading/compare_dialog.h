// Two photos of prints compared in colour: where they differ and by how much (CIEDE2000).
//
//     auto* dialog = new CompareDialog(services, prints, first, second, this);   // photos; 0: the person chooses
//     dialog->setAttribute(Qt::WA_DeleteOnClose);
//     dialog->show();
#pragma once

#include "core/density/colour_difference.h"
#include "ui/common/view.h"
#include "ui/reading/signs_sheet.h"

#include <QDialog>

class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QPushButton;
class QTabWidget;
class QVBoxLayout;

namespace washfast::ui {

class CompareMap;
class PictureBox;
class SheetCanvas;

class CompareDialog : public QDialog {
    Q_OBJECT

public:
    /// Photos of these prints come first in the lists.
    CompareDialog(const Services& services, const QVector<qint64>& prints, qint64 first, qint64 second,
        QWidget* parent = nullptr);
    ~CompareDialog() override;

    [[nodiscard]] bool working() const;
    [[nodiscard]] SheetCanvas* canvas(int which) const { return canvas_[which]; }
    [[nodiscard]] QComboBox* photoBox(int which) const { return photo_[which]; }
    [[nodiscard]] QComboBox* roleBox() const { return role_; }
    [[nodiscard]] QComboBox* laidByBox() const { return laid_by_; }
    [[nodiscard]] QPushButton* compareButton() const { return compare_; }
    [[nodiscard]] QTabWidget* pages() const { return pages_; }
    [[nodiscard]] CompareMap* map() const { return map_; }
    [[nodiscard]] QString says() const;
    [[nodiscard]] const std::optional<density::ColourDifference>& difference() const { return difference_; }

public Q_SLOTS:
    void compare();

private:
    void buildMarkPage();
    void buildChoices(QVBoxLayout& column);
    void buildResultPage();
    void fillPhotos(const QVector<qint64>& prints);
    void choosePhoto(int which);
    void showSheets();
    void marksChanged();
    void take();
    void showResult();
    [[nodiscard]] QStringList resultLines() const;
    [[nodiscard]] density::ColourQuestion question() const;
    [[nodiscard]] qint64 printOf(int which) const;

    Services services_;
    std::shared_ptr<MarkedSheet> sheets_[2];
    std::optional<density::ColourDifference> difference_;
    QString refusal_;
    QTabWidget* pages_ = nullptr;
    SheetCanvas* canvas_[2] {};
    QComboBox* photo_[2] {};
    QComboBox *role_ = nullptr, *laid_by_ = nullptr;
    QDoubleSpinBox *white_ = nullptr, *grey_ = nullptr;
    QPushButton* compare_ = nullptr;
    QLabel *hint_ = nullptr, *headline_ = nullptr, *lines_ = nullptr, *place_ = nullptr;
    CompareMap* map_ = nullptr;
    PictureBox* picture_[2] {};
    WorkBar* work_ = nullptr;
    SheetOpener* opener_ = nullptr;
    QFutureWatcher<std::shared_ptr<Result<density::ColourDifference>>> watcher_;
    bool comparing_ = false;
};

/// The photos of two prints that are best compared: of the same stage, the latest; 0 where a print has none.
[[nodiscard]] std::pair<qint64, qint64> photosToCompare(const Notebook& notebook, qint64 first, qint64 second);

} // namespace washfast::ui

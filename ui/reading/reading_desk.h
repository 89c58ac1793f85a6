// The Reading desk: a window on one or more photos in which references, spots and rows of steps are marked, with the
// densities beside them, and one button that enters them as readings. Opened from a photo of a print. What was marked
// in a stored photo is kept with it and is there again the next time.
#pragma once

#include "ui/common/view.h"
#include "ui/reading/marked_photo.h"

#include <QDialog>
#include <QFutureWatcher>

class QCheckBox;
class QComboBox;
class QLabel;
class QPushButton;
class QVBoxLayout;

namespace washfast::ui {

class DensityTable;
class OpeningBar;
class PhotoCanvas;
class ReferencePanel;
class RowPanel;
class StraightView;
struct PlacedSpots;

class ReadingDesk : public QDialog {
    Q_OBJECT

public:
    /// Regions belong to `print` as long as nothing is outlined; 0 for none.
    ReadingDesk(const Services& services, qint64 print, QWidget* parent = nullptr);
    ~ReadingDesk() override;

    void addStored(qint64 photo);
    void addStored(const QVector<qint64>& photos); // shows the first of them
    void addFiles(const QStringList& paths);
    /// Photos are being opened, or regions measured.
    [[nodiscard]] bool working() const;
    [[nodiscard]] PhotoCanvas* canvas() const { return canvas_; }
    [[nodiscard]] DensityTable* table() const { return table_; }
    [[nodiscard]] MarkedPhoto* current() const;
    [[nodiscard]] QString says() const;
    [[nodiscard]] QPushButton* enterButton() const { return enter_; }
    [[nodiscard]] QComboBox* photoBox() const { return photo_; }
    [[nodiscard]] QComboBox* roleBox() const { return role_; }
    [[nodiscard]] QCheckBox* cardsMeasuredBox() const;
    [[nodiscard]] ReferencePanel* referencePanel() const { return references_; }
    [[nodiscard]] RowPanel* rowPanel() const { return row_; }
    [[nodiscard]] QCheckBox* straightBox() const { return straight_; }
    [[nodiscard]] StraightView* straightView() const { return straight_view_; }
    /// Where further panels about the photo that is shown may be put, below those of the desk.
    [[nodiscard]] QVBoxLayout* panelColumn() const { return column_; }

Q_SIGNALS:
    /// Another photo is shown, or its marks were measured anew.
    void photoChanged();

private:
    struct Measured;

    void buildPhotos();
    void buildReferences();
    void buildPrints();
    void buildEntering(QVBoxLayout& side);
    void choosePhotos();
    MarkedPhoto* addPhoto(const QString& name);
    void restoreMarks(MarkedPhoto& photo);
    void showPhoto();
    void showChosen();
    void followCards();
    void marksChanged();
    void measureNow();
    void takeMeasured();
    void fillTable();
    void fillSentences();
    void say(const QStringList& news); // above what there is to say about the photo anyway
    [[nodiscard]] QStringList standingSentences() const;
    void assign();
    void showCorrection();
    void showStraight();
    void keepAsCard();
    void enter();

    Services services_;
    qint64 print_ = 0;
    std::vector<std::unique_ptr<MarkedPhoto>> photos_;
    References last_; // for the next photo
    bool measuring_ = false; // until the result is taken
    bool again_ = false; // the marks changed while they were being measured
    QFutureWatcher<std::shared_ptr<Measured>> measure_;
    QVBoxLayout* column_ = nullptr;
    OpeningBar* opening_ = nullptr;
    PhotoCanvas* canvas_ = nullptr;
    StraightView* straight_view_ = nullptr;
    ReferencePanel* references_ = nullptr;
    RowPanel* row_ = nullptr;
    QComboBox* photo_ = nullptr;
    QComboBox* when_ = nullptr;
    QComboBox* role_ = nullptr;
    QComboBox* assigned_ = nullptr;
    QComboBox* channel_ = nullptr;
    QCheckBox* straight_ = nullptr;
    QPushButton* enter_ = nullptr;
    DensityTable* table_ = nullptr;
    QLabel* sentences_ = nullptr;
};

} // namespace washfast::ui

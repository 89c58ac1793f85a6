// The Reading desk: a window on one or more photos in which references and spots are marked, with the densities beside
// them, and one button that enters them as readings. Opened from a photo of a print.
#pragma once

#include "ui/common/view.h"
#include "ui/reading/marked_photo.h"

#include <QDialog>
#include <QFutureWatcher>
#include <atomic>
#include <deque>

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QProgressBar;
class QPushButton;
class QTableWidget;
class QVBoxLayout;

namespace washfast::ui {

class PhotoCanvas;

class ReadingDesk : public QDialog {
    Q_OBJECT

public:
    /// Regions belong to `print` as long as nothing is outlined; 0 for none.
    ReadingDesk(const Services& services, qint64 print, QWidget* parent = nullptr);
    ~ReadingDesk() override;

    void addStored(qint64 photo);
    void addFiles(const QStringList& paths);
    /// Photos are being opened, or regions measured.
    [[nodiscard]] bool working() const;
    [[nodiscard]] PhotoCanvas* canvas() const { return canvas_; }
    [[nodiscard]] QTableWidget* table() const { return table_; }
    [[nodiscard]] MarkedPhoto* current() const;
    [[nodiscard]] QString says() const;
    [[nodiscard]] QPushButton* enterButton() const { return enter_; }
    [[nodiscard]] QComboBox* roleBox() const { return role_; }
    [[nodiscard]] QCheckBox* cardsMeasuredBox() const { return cards_measured_; }

private:
    struct Waiting {
        MarkedPhoto* into = nullptr;
        QString path; // of a file, or
        QByteArray bytes; // what the notebook stores
    };
    struct Measured {
        MarkedPhoto* of = nullptr;
        std::shared_ptr<Result<density::Measurement>> result;
    };

    void buildPanel(QVBoxLayout& column);
    void buildPhotos(QVBoxLayout& column);
    void buildReferences(QVBoxLayout& column);
    void buildPrints(QVBoxLayout& column);
    void buildEntering(QVBoxLayout& column);
    void choosePhotos();
    void await(Waiting waiting);
    void openNext();
    void takeOpened();
    void stop();
    void showPhoto();
    void marksChanged();
    void measureNow();
    void takeMeasured();
    void fillTable();
    void fillSentences();
    void fillPrints();
    void assign();
    void showCorrection();
    void enter();

    Services services_;
    qint64 print_ = 0;
    std::vector<std::unique_ptr<MarkedPhoto>> photos_;
    std::deque<Waiting> waiting_;
    MarkedPhoto* opening_ = nullptr;
    std::atomic<bool> cancel_ = false;
    bool measuring_ = false; // until the result is taken
    bool again_ = false; // the marks changed while they were being measured
    QFutureWatcher<std::shared_ptr<Result<density::Photo>>> open_;
    QFutureWatcher<Measured> measure_;
    PhotoCanvas* canvas_ = nullptr;
    QComboBox* photo_ = nullptr;
    QComboBox* when_ = nullptr;
    QComboBox* role_ = nullptr;
    QComboBox* assigned_ = nullptr;
    QComboBox* channel_ = nullptr;
    QDoubleSpinBox* white_ = nullptr;
    QDoubleSpinBox* grey_ = nullptr;
    QCheckBox* cards_measured_ = nullptr;
    QCheckBox* level_ = nullptr;
    QCheckBox* correction_ = nullptr;
    QProgressBar* progress_ = nullptr;
    QPushButton* stop_ = nullptr;
    QPushButton* enter_ = nullptr;
    QTableWidget* table_ = nullptr;
    QLabel* sentences_ = nullptr;
};

} // namespace washfast::ui

-- A reading outside a calibration or by somebody not authorised is kept and does not count until its deviation is released.
CREATE TABLE "reading_hold" (
    "lab_id" UUID NOT NULL,
    "reading_id" UUID NOT NULL,
    "deviation_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "reading_hold_pkey" PRIMARY KEY ("lab_id","reading_id","deviation_id")
);

CREATE INDEX "reading_hold_lab_id_deviation_id_idx" ON "reading_hold"("lab_id", "deviation_id");

ALTER TABLE "reading_hold" ADD CONSTRAINT "reading_hold_lab_id_reading_id_fkey" FOREIGN KEY ("lab_id", "reading_id") REFERENCES "reading"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "reading_hold" ADD CONSTRAINT "reading_hold_lab_id_deviation_id_fkey" FOREIGN KEY ("lab_id", "deviation_id") REFERENCES "deviation"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

select guard_append_only('reading_hold');
select guard_staff_only('reading_hold');

-- A deviation of a whole oven or bath is one, and stands with each of its specimens.
CREATE TABLE "deviation_test" (
    "lab_id" UUID NOT NULL,
    "deviation_id" UUID NOT NULL,
    "test_id" UUID NOT NULL,
    "load_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "deviation_test_pkey" PRIMARY KEY ("lab_id","deviation_id","test_id")
);

CREATE INDEX "deviation_test_lab_id_test_id_idx" ON "deviation_test"("lab_id", "test_id");
CREATE INDEX "deviation_test_lab_id_load_id_idx" ON "deviation_test"("lab_id", "load_id");

ALTER TABLE "deviation_test" ADD CONSTRAINT "deviation_test_lab_id_deviation_id_fkey" FOREIGN KEY ("lab_id", "deviation_id") REFERENCES "deviation"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "deviation_test" ADD CONSTRAINT "deviation_test_lab_id_test_id_fkey" FOREIGN KEY ("lab_id", "test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "deviation_test" ADD CONSTRAINT "deviation_test_lab_id_load_id_fkey" FOREIGN KEY ("lab_id", "load_id") REFERENCES "load"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

select guard_append_only('deviation_test');
select guard_staff_only('deviation_test');

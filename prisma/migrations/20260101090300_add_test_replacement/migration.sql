-- A spare that stands in the place of a void specimen.
CREATE TABLE "test_replacement" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "void_test_id" UUID NOT NULL,
    "spare_test_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "test_replacement_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE UNIQUE INDEX "test_replacement_lab_id_void_test_id_key" ON "test_replacement"("lab_id", "void_test_id");
CREATE UNIQUE INDEX "test_replacement_lab_id_spare_test_id_key" ON "test_replacement"("lab_id", "spare_test_id");

ALTER TABLE "test_replacement" ADD CONSTRAINT "test_replacement_lab_id_void_test_id_fkey" FOREIGN KEY ("lab_id", "void_test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "test_replacement" ADD CONSTRAINT "test_replacement_lab_id_spare_test_id_fkey" FOREIGN KEY ("lab_id", "spare_test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "test_replacement" ADD CONSTRAINT "test_replacement_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table test_replacement add constraint test_replacement_of_another check (void_test_id <> spare_test_id);
select guard_append_only('test_replacement');
select guard_staff_only('test_replacement');

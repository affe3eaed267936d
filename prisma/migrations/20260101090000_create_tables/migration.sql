-- CreateTable
CREATE TABLE "design" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "project_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "design_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "design_revision" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "design_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "specification_id" UUID,
    "basis" TEXT NOT NULL,
    "residue_result_id" UUID,
    "moisture_result_id" UUID,
    "aggregate_item_id" UUID,
    "emulsion_item_id" UUID,
    "filler_item_id" UUID,
    "water_item_id" UUID,
    "additive_item_id" UUID,
    "fraction_used" TEXT NOT NULL,
    "scalped_percent" TEXT NOT NULL,
    "copied_from_id" UUID,
    "note" TEXT,
    "state" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "design_revision_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "design_method" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "design_revision_id" UUID NOT NULL,
    "method_key" TEXT NOT NULL,
    "edition_id" UUID NOT NULL,
    "replicates" INTEGER NOT NULL,
    "machine_id" UUID,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "design_method_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "mix" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "design_revision_id" UUID NOT NULL,
    "ordinal" INTEGER NOT NULL,
    "emulsion_percent_text" TEXT NOT NULL,
    "emulsion_percent" DECIMAL NOT NULL,
    "water_percent_text" TEXT NOT NULL,
    "water_percent" DECIMAL NOT NULL,
    "filler_percent_text" TEXT NOT NULL,
    "filler_percent" DECIMAL NOT NULL,
    "additive_percent_text" TEXT NOT NULL,
    "additive_percent" DECIMAL NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "mix_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "mix_component" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "mix_id" UUID NOT NULL,
    "method_key" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "source_id" UUID,
    "target_percent" DECIMAL NOT NULL,
    "target_g" DECIMAL NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "mix_component_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "recommendation" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "design_revision_id" UUID NOT NULL,
    "emulsion_percent_text" TEXT NOT NULL,
    "emulsion_percent" DECIMAL NOT NULL,
    "tolerance_text" TEXT NOT NULL,
    "tolerance" DECIMAL NOT NULL,
    "tolerance_unit" TEXT NOT NULL,
    "ranges" TEXT NOT NULL,
    "rationale" TEXT NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "recommendation_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "acknowledgement" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "design_revision_id" UUID NOT NULL,
    "point_key" TEXT NOT NULL,
    "word" TEXT NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "acknowledgement_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "send_back" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "design_revision_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "points" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "send_back_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "method_edition" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "method_key" TEXT NOT NULL,
    "edition_key" TEXT NOT NULL,
    "revision" INTEGER NOT NULL,
    "origin" TEXT NOT NULL,
    "copied_from_id" UUID,
    "designation" TEXT NOT NULL,
    "year" TEXT NOT NULL,
    "parameters" TEXT NOT NULL,
    "dig" BYTEA NOT NULL,
    "effective_from" DATE NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "method_edition_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "specification" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "key" TEXT NOT NULL,
    "revision" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "origin" TEXT NOT NULL,
    "copied_from_id" UUID,
    "project_id" UUID,
    "limits" TEXT NOT NULL,
    "dig" BYTEA NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "specification_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "identity_user" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "email_verified" BOOLEAN NOT NULL DEFAULT false,
    "image" TEXT,
    "two_factor_enabled" BOOLEAN DEFAULT false,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "identity_user_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "identity_session" (
    "id" UUID NOT NULL,
    "token" TEXT NOT NULL,
    "user_id" UUID NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "ip_address" TEXT,
    "user_agent" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "last_seen_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "identity_session_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "identity_account" (
    "id" UUID NOT NULL,
    "account_id" TEXT NOT NULL,
    "provider_id" TEXT NOT NULL,
    "user_id" UUID NOT NULL,
    "access_token" TEXT,
    "refresh_token" TEXT,
    "id_token" TEXT,
    "access_token_expires_at" TIMESTAMPTZ(3),
    "refresh_token_expires_at" TIMESTAMPTZ(3),
    "scope" TEXT,
    "password" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "identity_account_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "identity_verification" (
    "id" UUID NOT NULL,
    "identifier" TEXT NOT NULL,
    "value" TEXT NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "identity_verification_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "identity_two_factor" (
    "id" UUID NOT NULL,
    "secret" TEXT NOT NULL,
    "backup_codes" TEXT NOT NULL,
    "user_id" UUID NOT NULL,
    "verified" BOOLEAN DEFAULT true,
    "failed_verification_count" INTEGER DEFAULT 0,
    "locked_until" TIMESTAMPTZ(3),

    CONSTRAINT "identity_two_factor_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "identity_rate" (
    "key" TEXT NOT NULL,
    "count" INTEGER NOT NULL,
    "window_start" TIMESTAMPTZ(3) NOT NULL,
    "blocked_until" TIMESTAMPTZ(3),

    CONSTRAINT "identity_rate_pkey" PRIMARY KEY ("key")
);

-- CreateTable
CREATE TABLE "instrument" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "serial" TEXT NOT NULL,
    "place_text" TEXT NOT NULL,
    "range" DECIMAL,
    "resolution" DECIMAL,
    "unit" TEXT,
    "capacity" INTEGER,
    "state" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "instrument_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "calibration" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "done_on" DATE NOT NULL,
    "valid_until" DATE NOT NULL,
    "certificate" TEXT NOT NULL,
    "as_found" TEXT NOT NULL,
    "as_left" TEXT NOT NULL,
    "passed" BOOLEAN NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "calibration_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "instrument_factor" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "key" TEXT NOT NULL,
    "value_text" TEXT NOT NULL,
    "value" DECIMAL NOT NULL,
    "unit" TEXT NOT NULL,
    "measured_area" DECIMAL,
    "edition" TEXT NOT NULL,
    "effective_from" DATE NOT NULL,
    "dig" BYTEA NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "instrument_factor_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "instrument_check" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "passed" BOOLEAN NOT NULL,
    "note" TEXT,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "instrument_check_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "part_lot" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "lot" TEXT NOT NULL,
    "hardness" DECIMAL,
    "fitted_on_id" UUID,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "part_lot_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "equipment_use" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "step_event_id" UUID,
    "reading_id" UUID,
    "instrument_id" UUID NOT NULL,
    "calibration_id" UUID,
    "factor_id" UUID,
    "part_lot_id" UUID,
    "settings" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "equipment_use_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "item" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "code" TEXT NOT NULL,
    "source_id" UUID,
    "mix_id" UUID,
    "form" TEXT,
    "name" TEXT,
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "note" TEXT,
    "material_kind" TEXT,
    "source_name" TEXT,
    "lot" TEXT,
    "supplier" TEXT,
    "received_on" DATE,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "item_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "item_parent" (
    "lab_id" UUID NOT NULL,
    "child_id" UUID NOT NULL,
    "parent_id" UUID NOT NULL,
    "mass_text" TEXT,
    "mass" DECIMAL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "item_parent_pkey" PRIMARY KEY ("lab_id","child_id","parent_id")
);

-- CreateTable
CREATE TABLE "item_now" (
    "lab_id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "custodian_id" UUID,
    "place_id" UUID,
    "status" TEXT NOT NULL,
    "last_event_id" UUID,

    CONSTRAINT "item_now_pkey" PRIMARY KEY ("lab_id","item_id")
);

-- CreateTable
CREATE TABLE "custody_event" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "from_member_id" UUID,
    "from_place_id" UUID,
    "from_party" TEXT,
    "to_member_id" UUID,
    "to_place_id" UUID,
    "to_party" TEXT,
    "offer_id" UUID,
    "event_at" TIMESTAMPTZ(3) NOT NULL,
    "event_from" TEXT NOT NULL,
    "condition" TEXT,
    "temperature" DECIMAL,
    "container_seal" TEXT,
    "seal_intact" BOOLEAN,
    "mass" DECIMAL,
    "authority_id" UUID,
    "note" TEXT,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "custody_event_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "laboratory" (
    "id" UUID NOT NULL,
    "short_name" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "address" TEXT NOT NULL,
    "contact" TEXT NOT NULL,
    "zone" TEXT NOT NULL,
    "closed_days" TEXT NOT NULL,
    "shifts" TEXT NOT NULL,
    "units" TEXT NOT NULL,
    "decimal_sign" TEXT NOT NULL,
    "language" TEXT NOT NULL,
    "paper" TEXT NOT NULL,
    "accreditation" TEXT,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "laboratory_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "client" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "address" TEXT NOT NULL,
    "contact" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "client_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "place" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "access_controlled" BOOLEAN NOT NULL,
    "instrument_id" UUID,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "place_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "counter" (
    "lab_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "value" BIGINT NOT NULL,

    CONSTRAINT "counter_pkey" PRIMARY KEY ("lab_id","name")
);

-- CreateTable
CREATE TABLE "request_key" (
    "lab_id" UUID NOT NULL,
    "actor_id" UUID NOT NULL,
    "key" TEXT NOT NULL,
    "route" TEXT NOT NULL,
    "request_dig" BYTEA NOT NULL,
    "status" INTEGER NOT NULL,
    "answer" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "request_key_pkey" PRIMARY KEY ("lab_id","actor_id","key")
);

-- CreateTable
CREATE TABLE "ledger_entry" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "actor_kind" TEXT NOT NULL,
    "actor_id" UUID,
    "session_id" UUID,
    "action" TEXT NOT NULL,
    "subject_kind" TEXT NOT NULL,
    "subject_id" UUID NOT NULL,
    "project_id" UUID,
    "client_id" UUID,
    "topics" TEXT[],
    "content" TEXT NOT NULL,
    "dig" BYTEA NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "ledger_entry_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "ledger_seal" (
    "lab_id" UUID NOT NULL,
    "seq" BIGINT NOT NULL,
    "entry_id" UUID NOT NULL,
    "previous" BYTEA NOT NULL,
    "hash" BYTEA NOT NULL,
    "sealed_at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "ledger_seal_pkey" PRIMARY KEY ("lab_id","seq")
);

-- CreateTable
CREATE TABLE "ledger_unsealed" (
    "lab_id" UUID NOT NULL,
    "entry_id" UUID NOT NULL,

    CONSTRAINT "ledger_unsealed_pkey" PRIMARY KEY ("lab_id","entry_id")
);

-- CreateTable
CREATE TABLE "ledger_head_print" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "seq" BIGINT NOT NULL,
    "hash" BYTEA NOT NULL,
    "printed_at" TIMESTAMPTZ(3) NOT NULL,
    "place" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "ledger_head_print_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "membership" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "account_id" UUID,
    "name" TEXT NOT NULL,
    "initials" TEXT NOT NULL,
    "roles" TEXT[],
    "client_id" UUID,
    "valid_from" TIMESTAMPTZ(3) NOT NULL,
    "valid_until" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "membership_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "invitation" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "email" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "roles" TEXT[],
    "client_id" UUID,
    "token_hash" BYTEA NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "accepted_at" TIMESTAMPTZ(3),
    "revoked_at" TIMESTAMPTZ(3),
    "membership_id" UUID,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "invitation_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "authorisation" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "membership_id" UUID NOT NULL,
    "activity" TEXT NOT NULL,
    "from_day" DATE NOT NULL,
    "until_day" DATE,
    "evidence" TEXT NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "authorisation_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "project" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "report_to" TEXT NOT NULL,
    "copies_to" TEXT NOT NULL,
    "status_word" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "closed_at" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "project_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "deviation" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "opened_by_rule" BOOLEAN NOT NULL,
    "test_id" UUID,
    "item_id" UUID,
    "instrument_id" UUID,
    "design_revision_id" UUID,
    "reading_id" UUID,
    "window_outcome_id" UUID,
    "text" TEXT NOT NULL,
    "by_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "deviation_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "deviation_event" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "deviation_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "signature_id" UUID,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "deviation_event_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "signed_content" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "subject_id" UUID NOT NULL,
    "schema" INTEGER NOT NULL,
    "body" TEXT NOT NULL,
    "dig" BYTEA NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "signed_content_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "signature" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "signed_content_id" UUID NOT NULL,
    "dig" BYTEA NOT NULL,
    "meaning" TEXT NOT NULL,
    "signer_id" UUID NOT NULL,
    "printed_name" TEXT NOT NULL,
    "printed_role" TEXT NOT NULL,
    "statement" TEXT NOT NULL,
    "authenticated_at" TIMESTAMPTZ(3) NOT NULL,
    "means" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "signature_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "report" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "number" TEXT NOT NULL,
    "amendment" INTEGER NOT NULL,
    "replaces_id" UUID,
    "project_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "design_revision_id" UUID,
    "signed_content_id" UUID NOT NULL,
    "signature_id" UUID NOT NULL,
    "language" TEXT NOT NULL,
    "paper" TEXT NOT NULL,
    "renderer" TEXT NOT NULL,
    "pdf_id" UUID NOT NULL,
    "pdf_sha256" BYTEA NOT NULL,
    "public_token_hash" BYTEA NOT NULL,
    "issued_at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "report_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "report_event" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "report_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "note" TEXT,
    "by_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "report_event_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "attachment" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "media_type" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "sha256" BYTEA NOT NULL,
    "name" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "attachment_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "attachment_body" (
    "lab_id" UUID NOT NULL,
    "attachment_id" UUID NOT NULL,
    "body" BYTEA NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "attachment_body_pkey" PRIMARY KEY ("lab_id","attachment_id")
);

-- CreateTable
CREATE TABLE "result" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "level" TEXT NOT NULL,
    "test_id" UUID,
    "mix_id" UUID,
    "design_revision_id" UUID,
    "key" TEXT NOT NULL,
    "made_by" TEXT NOT NULL,
    "value_text" TEXT,
    "value" DECIMAL,
    "unit" TEXT,
    "choice" TEXT,
    "refusal_code" TEXT,
    "refusal_text" TEXT,
    "method_key" TEXT,
    "computation" INTEGER,
    "build" TEXT,
    "edition_id" UUID,
    "edition_dig" BYTEA,
    "source" TEXT,
    "observed_on" DATE,
    "attachment_id" UUID,
    "laboratory_name" TEXT,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "result_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "result_input" (
    "lab_id" UUID NOT NULL,
    "result_id" UUID NOT NULL,
    "n" SMALLINT NOT NULL,
    "symbol" TEXT NOT NULL,
    "reading_id" UUID,
    "input_result_id" UUID,
    "factor_id" UUID,
    "parameter" TEXT,
    "value_text" TEXT NOT NULL,
    "unit" TEXT,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "result_input_pkey" PRIMARY KEY ("lab_id","result_id","n")
);

-- CreateTable
CREATE TABLE "calculation" (
    "lab_id" UUID NOT NULL,
    "result_id" UUID NOT NULL,
    "schema" INTEGER NOT NULL,
    "body" TEXT NOT NULL,
    "dig" BYTEA NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "calculation_pkey" PRIMARY KEY ("lab_id","result_id")
);

-- CreateTable
CREATE TABLE "test_event" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "method_key" TEXT NOT NULL,
    "edition_id" UUID NOT NULL,
    "computation" INTEGER NOT NULL,
    "mix_id" UUID,
    "design_revision_id" UUID,
    "project_id" UUID,
    "replicate" INTEGER NOT NULL,
    "label" TEXT NOT NULL,
    "purpose" TEXT NOT NULL,
    "replaces_id" UUID,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "test_event_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "test_now" (
    "lab_id" UUID NOT NULL,
    "test_id" UUID NOT NULL,
    "state" TEXT NOT NULL,
    "step_key" TEXT,
    "steps_done" INTEGER NOT NULL,
    "steps_total" INTEGER NOT NULL,
    "counts" BOOLEAN NOT NULL,
    "assignee_id" UUID,

    CONSTRAINT "test_now_pkey" PRIMARY KEY ("lab_id","test_id")
);

-- CreateTable
CREATE TABLE "load" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "instrument_id" UUID NOT NULL,
    "place" TEXT NOT NULL,
    "opened_at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "load_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "step_event" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "test_id" UUID NOT NULL,
    "load_id" UUID,
    "step_key" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "event_at" TIMESTAMPTZ(3) NOT NULL,
    "event_from" TEXT NOT NULL,
    "sent_at" TIMESTAMPTZ(3),
    "received_at" TIMESTAMPTZ(3) NOT NULL,
    "offset_ms" INTEGER,
    "device_id" UUID,
    "note" TEXT,
    "choice" TEXT,
    "attachment_id" UUID,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "step_event_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "reading" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "test_id" UUID,
    "item_id" UUID,
    "load_id" UUID,
    "instrument_check_id" UUID,
    "step_key" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "repeat" SMALLINT NOT NULL DEFAULT 1,
    "kind" TEXT NOT NULL,
    "typed" TEXT NOT NULL,
    "value" DECIMAL,
    "unit" TEXT,
    "choice" TEXT,
    "instrument_id" UUID,
    "calibration_id" UUID,
    "attachment_id" UUID,
    "event_at" TIMESTAMPTZ(3) NOT NULL,
    "event_from" TEXT NOT NULL,
    "sent_at" TIMESTAMPTZ(3),
    "received_at" TIMESTAMPTZ(3) NOT NULL,
    "offset_ms" INTEGER,
    "device_id" UUID,
    "transcribed" BOOLEAN NOT NULL,
    "confirmed_odd" BOOLEAN NOT NULL,
    "actor_kind" TEXT NOT NULL,
    "request_dig" BYTEA NOT NULL,
    "note" TEXT,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "reading_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "slot_now" (
    "lab_id" UUID NOT NULL,
    "test_id" UUID NOT NULL,
    "step_key" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "repeat" SMALLINT NOT NULL,
    "reading_id" UUID NOT NULL,
    "typed" TEXT NOT NULL,
    "value" DECIMAL,
    "unit" TEXT,
    "choice" TEXT,
    "event_at" TIMESTAMPTZ(3) NOT NULL,
    "counts" BOOLEAN NOT NULL,

    CONSTRAINT "slot_now_pkey" PRIMARY KEY ("lab_id","test_id","step_key","key","repeat")
);

-- CreateTable
CREATE TABLE "window_outcome" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "test_id" UUID NOT NULL,
    "window_key" TEXT NOT NULL,
    "step_key" TEXT NOT NULL,
    "after_event_id" UUID,
    "after_reading_id" UUID,
    "event_id" UUID,
    "event_reading_id" UUID,
    "opens_at" TIMESTAMPTZ(3),
    "closes_at" TIMESTAMPTZ(3),
    "outcome" TEXT NOT NULL,
    "margin_s" INTEGER,
    "judged_by" TEXT NOT NULL,
    "edition_id" UUID NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "window_outcome_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "due" (
    "lab_id" UUID NOT NULL,
    "test_id" UUID NOT NULL,
    "step_key" TEXT NOT NULL,
    "act" TEXT NOT NULL,
    "window_key" TEXT,
    "opens_at" TIMESTAMPTZ(3),
    "closes_at" TIMESTAMPTZ(3),
    "assignee_id" UUID,
    "project_id" UUID,
    "urgency" INTEGER NOT NULL,

    CONSTRAINT "due_pkey" PRIMARY KEY ("lab_id","test_id","step_key")
);

-- CreateTable
CREATE TABLE "assignment" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "test_id" UUID NOT NULL,
    "step_key" TEXT,
    "to_member_id" UUID,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "assignment_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateTable
CREATE TABLE "plan" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "test_id" UUID NOT NULL,
    "step_key" TEXT NOT NULL,
    "start_at" TIMESTAMPTZ(3) NOT NULL,
    "instrument_id" UUID,
    "pinned" BOOLEAN NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "plan_pkey" PRIMARY KEY ("lab_id","id")
);

-- CreateIndex
CREATE INDEX "design_lab_id_project_id_idx" ON "design"("lab_id", "project_id");

-- CreateIndex
CREATE UNIQUE INDEX "design_revision_lab_id_design_id_number_key" ON "design_revision"("lab_id", "design_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "design_method_lab_id_design_revision_id_method_key_key" ON "design_method"("lab_id", "design_revision_id", "method_key");

-- CreateIndex
CREATE UNIQUE INDEX "mix_lab_id_design_revision_id_ordinal_key" ON "mix"("lab_id", "design_revision_id", "ordinal");

-- CreateIndex
CREATE UNIQUE INDEX "mix_component_lab_id_mix_id_method_key_kind_key" ON "mix_component"("lab_id", "mix_id", "method_key", "kind");

-- CreateIndex
CREATE INDEX "recommendation_lab_id_design_revision_id_idx" ON "recommendation"("lab_id", "design_revision_id");

-- CreateIndex
CREATE UNIQUE INDEX "recommendation_lab_id_supersedes_id_key" ON "recommendation"("lab_id", "supersedes_id");

-- CreateIndex
CREATE INDEX "acknowledgement_lab_id_design_revision_id_idx" ON "acknowledgement"("lab_id", "design_revision_id");

-- CreateIndex
CREATE UNIQUE INDEX "acknowledgement_lab_id_supersedes_id_key" ON "acknowledgement"("lab_id", "supersedes_id");

-- CreateIndex
CREATE INDEX "send_back_lab_id_design_revision_id_idx" ON "send_back"("lab_id", "design_revision_id");

-- CreateIndex
CREATE UNIQUE INDEX "method_edition_lab_id_supersedes_id_key" ON "method_edition"("lab_id", "supersedes_id");

-- CreateIndex
CREATE UNIQUE INDEX "method_edition_lab_id_method_key_edition_key_revision_key" ON "method_edition"("lab_id", "method_key", "edition_key", "revision");

-- CreateIndex
CREATE UNIQUE INDEX "method_edition_lab_id_dig_key" ON "method_edition"("lab_id", "dig");

-- CreateIndex
CREATE INDEX "specification_lab_id_project_id_idx" ON "specification"("lab_id", "project_id");

-- CreateIndex
CREATE UNIQUE INDEX "specification_lab_id_supersedes_id_key" ON "specification"("lab_id", "supersedes_id");

-- CreateIndex
CREATE UNIQUE INDEX "specification_lab_id_key_revision_key" ON "specification"("lab_id", "key", "revision");

-- CreateIndex
CREATE UNIQUE INDEX "identity_user_email_key" ON "identity_user"("email");

-- CreateIndex
CREATE UNIQUE INDEX "identity_session_token_key" ON "identity_session"("token");

-- CreateIndex
CREATE INDEX "identity_session_user_id_idx" ON "identity_session"("user_id");

-- CreateIndex
CREATE INDEX "identity_account_user_id_idx" ON "identity_account"("user_id");

-- CreateIndex
CREATE UNIQUE INDEX "identity_account_provider_id_account_id_key" ON "identity_account"("provider_id", "account_id");

-- CreateIndex
CREATE INDEX "identity_verification_identifier_idx" ON "identity_verification"("identifier");

-- CreateIndex
CREATE INDEX "identity_two_factor_secret_idx" ON "identity_two_factor"("secret");

-- CreateIndex
CREATE INDEX "identity_two_factor_user_id_idx" ON "identity_two_factor"("user_id");

-- CreateIndex
CREATE UNIQUE INDEX "instrument_lab_id_code_key" ON "instrument"("lab_id", "code");

-- CreateIndex
CREATE INDEX "calibration_lab_id_instrument_id_idx" ON "calibration"("lab_id", "instrument_id");

-- CreateIndex
CREATE UNIQUE INDEX "calibration_lab_id_supersedes_id_key" ON "calibration"("lab_id", "supersedes_id");

-- CreateIndex
CREATE INDEX "instrument_factor_lab_id_instrument_id_key_idx" ON "instrument_factor"("lab_id", "instrument_id", "key");

-- CreateIndex
CREATE UNIQUE INDEX "instrument_factor_lab_id_supersedes_id_key" ON "instrument_factor"("lab_id", "supersedes_id");

-- CreateIndex
CREATE INDEX "instrument_check_lab_id_instrument_id_at_idx" ON "instrument_check"("lab_id", "instrument_id", "at");

-- CreateIndex
CREATE UNIQUE INDEX "instrument_check_lab_id_supersedes_id_key" ON "instrument_check"("lab_id", "supersedes_id");

-- CreateIndex
CREATE UNIQUE INDEX "part_lot_lab_id_kind_lot_key" ON "part_lot"("lab_id", "kind", "lot");

-- CreateIndex
CREATE INDEX "equipment_use_lab_id_step_event_id_idx" ON "equipment_use"("lab_id", "step_event_id");

-- CreateIndex
CREATE INDEX "equipment_use_lab_id_reading_id_idx" ON "equipment_use"("lab_id", "reading_id");

-- CreateIndex
CREATE INDEX "equipment_use_lab_id_instrument_id_at_idx" ON "equipment_use"("lab_id", "instrument_id", "at");

-- CreateIndex
CREATE INDEX "item_lab_id_mix_id_idx" ON "item"("lab_id", "mix_id");

-- CreateIndex
CREATE INDEX "item_lab_id_source_id_idx" ON "item"("lab_id", "source_id");

-- CreateIndex
CREATE INDEX "item_lab_id_kind_at_idx" ON "item"("lab_id", "kind", "at");

-- CreateIndex
CREATE UNIQUE INDEX "item_lab_id_code_key" ON "item"("lab_id", "code");

-- CreateIndex
CREATE INDEX "item_parent_lab_id_parent_id_idx" ON "item_parent"("lab_id", "parent_id");

-- CreateIndex
CREATE INDEX "custody_event_lab_id_item_id_event_at_idx" ON "custody_event"("lab_id", "item_id", "event_at");

-- CreateIndex
CREATE UNIQUE INDEX "custody_event_lab_id_supersedes_id_key" ON "custody_event"("lab_id", "supersedes_id");

-- CreateIndex
CREATE UNIQUE INDEX "custody_event_lab_id_offer_id_key" ON "custody_event"("lab_id", "offer_id");

-- CreateIndex
CREATE UNIQUE INDEX "laboratory_short_name_key" ON "laboratory"("short_name");

-- CreateIndex
CREATE UNIQUE INDEX "client_lab_id_name_key" ON "client"("lab_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "place_lab_id_name_key" ON "place"("lab_id", "name");

-- CreateIndex
CREATE INDEX "request_key_lab_id_at_idx" ON "request_key"("lab_id", "at");

-- CreateIndex
CREATE INDEX "ledger_entry_lab_id_subject_kind_subject_id_idx" ON "ledger_entry"("lab_id", "subject_kind", "subject_id");

-- CreateIndex
CREATE INDEX "ledger_entry_lab_id_project_id_at_idx" ON "ledger_entry"("lab_id", "project_id", "at");

-- CreateIndex
CREATE INDEX "ledger_entry_lab_id_at_idx" ON "ledger_entry"("lab_id", "at");

-- CreateIndex
CREATE UNIQUE INDEX "ledger_seal_lab_id_entry_id_key" ON "ledger_seal"("lab_id", "entry_id");

-- CreateIndex
CREATE INDEX "ledger_head_print_lab_id_seq_idx" ON "ledger_head_print"("lab_id", "seq");

-- CreateIndex
CREATE INDEX "membership_account_id_idx" ON "membership"("account_id");

-- CreateIndex
CREATE UNIQUE INDEX "membership_lab_id_account_id_key" ON "membership"("lab_id", "account_id");

-- CreateIndex
CREATE INDEX "invitation_token_hash_idx" ON "invitation"("token_hash");

-- CreateIndex
CREATE UNIQUE INDEX "invitation_lab_id_token_hash_key" ON "invitation"("lab_id", "token_hash");

-- CreateIndex
CREATE INDEX "authorisation_lab_id_membership_id_idx" ON "authorisation"("lab_id", "membership_id");

-- CreateIndex
CREATE UNIQUE INDEX "authorisation_lab_id_supersedes_id_key" ON "authorisation"("lab_id", "supersedes_id");

-- CreateIndex
CREATE INDEX "project_lab_id_client_id_idx" ON "project"("lab_id", "client_id");

-- CreateIndex
CREATE UNIQUE INDEX "project_lab_id_code_key" ON "project"("lab_id", "code");

-- CreateIndex
CREATE INDEX "deviation_lab_id_test_id_idx" ON "deviation"("lab_id", "test_id");

-- CreateIndex
CREATE INDEX "deviation_lab_id_reading_id_idx" ON "deviation"("lab_id", "reading_id");

-- CreateIndex
CREATE INDEX "deviation_lab_id_design_revision_id_idx" ON "deviation"("lab_id", "design_revision_id");

-- CreateIndex
CREATE INDEX "deviation_lab_id_at_idx" ON "deviation"("lab_id", "at");

-- CreateIndex
CREATE INDEX "deviation_event_lab_id_deviation_id_idx" ON "deviation_event"("lab_id", "deviation_id");

-- CreateIndex
CREATE INDEX "signed_content_lab_id_kind_subject_id_idx" ON "signed_content"("lab_id", "kind", "subject_id");

-- CreateIndex
CREATE UNIQUE INDEX "signed_content_lab_id_dig_key" ON "signed_content"("lab_id", "dig");

-- CreateIndex
CREATE UNIQUE INDEX "signature_lab_id_signed_content_id_meaning_signer_id_key" ON "signature"("lab_id", "signed_content_id", "meaning", "signer_id");

-- CreateIndex
CREATE INDEX "report_public_token_hash_idx" ON "report"("public_token_hash");

-- CreateIndex
CREATE INDEX "report_lab_id_project_id_idx" ON "report"("lab_id", "project_id");

-- CreateIndex
CREATE INDEX "report_lab_id_client_id_issued_at_idx" ON "report"("lab_id", "client_id", "issued_at");

-- CreateIndex
CREATE UNIQUE INDEX "report_lab_id_number_amendment_key" ON "report"("lab_id", "number", "amendment");

-- CreateIndex
CREATE UNIQUE INDEX "report_lab_id_replaces_id_key" ON "report"("lab_id", "replaces_id");

-- CreateIndex
CREATE UNIQUE INDEX "report_lab_id_public_token_hash_key" ON "report"("lab_id", "public_token_hash");

-- CreateIndex
CREATE INDEX "report_event_lab_id_report_id_idx" ON "report_event"("lab_id", "report_id");

-- CreateIndex
CREATE INDEX "result_lab_id_test_id_idx" ON "result"("lab_id", "test_id");

-- CreateIndex
CREATE INDEX "result_lab_id_mix_id_idx" ON "result"("lab_id", "mix_id");

-- CreateIndex
CREATE INDEX "result_lab_id_design_revision_id_idx" ON "result"("lab_id", "design_revision_id");

-- CreateIndex
CREATE UNIQUE INDEX "result_lab_id_supersedes_id_key" ON "result"("lab_id", "supersedes_id");

-- CreateIndex
CREATE INDEX "result_input_lab_id_reading_id_idx" ON "result_input"("lab_id", "reading_id");

-- CreateIndex
CREATE INDEX "result_input_lab_id_input_result_id_idx" ON "result_input"("lab_id", "input_result_id");

-- CreateIndex
CREATE INDEX "result_input_lab_id_factor_id_idx" ON "result_input"("lab_id", "factor_id");

-- CreateIndex
CREATE INDEX "test_event_lab_id_item_id_idx" ON "test_event"("lab_id", "item_id");

-- CreateIndex
CREATE INDEX "test_event_lab_id_mix_id_idx" ON "test_event"("lab_id", "mix_id");

-- CreateIndex
CREATE INDEX "test_event_lab_id_design_revision_id_idx" ON "test_event"("lab_id", "design_revision_id");

-- CreateIndex
CREATE INDEX "test_event_lab_id_project_id_idx" ON "test_event"("lab_id", "project_id");

-- CreateIndex
CREATE UNIQUE INDEX "test_event_lab_id_replaces_id_key" ON "test_event"("lab_id", "replaces_id");

-- CreateIndex
CREATE INDEX "test_now_lab_id_assignee_id_state_idx" ON "test_now"("lab_id", "assignee_id", "state");

-- CreateIndex
CREATE INDEX "load_lab_id_instrument_id_opened_at_idx" ON "load"("lab_id", "instrument_id", "opened_at");

-- CreateIndex
CREATE INDEX "step_event_lab_id_test_id_step_key_idx" ON "step_event"("lab_id", "test_id", "step_key");

-- CreateIndex
CREATE INDEX "step_event_lab_id_load_id_idx" ON "step_event"("lab_id", "load_id");

-- CreateIndex
CREATE UNIQUE INDEX "step_event_lab_id_supersedes_id_key" ON "step_event"("lab_id", "supersedes_id");

-- CreateIndex
CREATE INDEX "reading_lab_id_test_id_step_key_idx" ON "reading"("lab_id", "test_id", "step_key");

-- CreateIndex
CREATE INDEX "reading_lab_id_item_id_idx" ON "reading"("lab_id", "item_id");

-- CreateIndex
CREATE INDEX "reading_lab_id_load_id_idx" ON "reading"("lab_id", "load_id");

-- CreateIndex
CREATE INDEX "reading_lab_id_instrument_check_id_idx" ON "reading"("lab_id", "instrument_check_id");

-- CreateIndex
CREATE INDEX "reading_lab_id_instrument_id_event_at_idx" ON "reading"("lab_id", "instrument_id", "event_at");

-- CreateIndex
CREATE UNIQUE INDEX "reading_lab_id_supersedes_id_key" ON "reading"("lab_id", "supersedes_id");

-- CreateIndex
CREATE INDEX "window_outcome_lab_id_test_id_idx" ON "window_outcome"("lab_id", "test_id");

-- CreateIndex
CREATE UNIQUE INDEX "window_outcome_lab_id_supersedes_id_key" ON "window_outcome"("lab_id", "supersedes_id");

-- CreateIndex
CREATE INDEX "due_lab_id_assignee_id_closes_at_idx" ON "due"("lab_id", "assignee_id", "closes_at");

-- CreateIndex
CREATE INDEX "due_lab_id_closes_at_idx" ON "due"("lab_id", "closes_at");

-- CreateIndex
CREATE INDEX "assignment_lab_id_test_id_idx" ON "assignment"("lab_id", "test_id");

-- CreateIndex
CREATE INDEX "assignment_lab_id_to_member_id_idx" ON "assignment"("lab_id", "to_member_id");

-- CreateIndex
CREATE UNIQUE INDEX "assignment_lab_id_supersedes_id_key" ON "assignment"("lab_id", "supersedes_id");

-- CreateIndex
CREATE INDEX "plan_lab_id_start_at_idx" ON "plan"("lab_id", "start_at");

-- CreateIndex
CREATE UNIQUE INDEX "plan_lab_id_test_id_step_key_key" ON "plan"("lab_id", "test_id", "step_key");

-- AddForeignKey
ALTER TABLE "design" ADD CONSTRAINT "design_lab_id_project_id_fkey" FOREIGN KEY ("lab_id", "project_id") REFERENCES "project"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "design_revision" ADD CONSTRAINT "design_revision_lab_id_design_id_fkey" FOREIGN KEY ("lab_id", "design_id") REFERENCES "design"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "design_revision" ADD CONSTRAINT "design_revision_lab_id_specification_id_fkey" FOREIGN KEY ("lab_id", "specification_id") REFERENCES "specification"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "design_revision" ADD CONSTRAINT "design_revision_lab_id_residue_result_id_fkey" FOREIGN KEY ("lab_id", "residue_result_id") REFERENCES "result"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "design_revision" ADD CONSTRAINT "design_revision_lab_id_moisture_result_id_fkey" FOREIGN KEY ("lab_id", "moisture_result_id") REFERENCES "result"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "design_revision" ADD CONSTRAINT "design_revision_lab_id_aggregate_item_id_fkey" FOREIGN KEY ("lab_id", "aggregate_item_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "design_revision" ADD CONSTRAINT "design_revision_lab_id_emulsion_item_id_fkey" FOREIGN KEY ("lab_id", "emulsion_item_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "design_revision" ADD CONSTRAINT "design_revision_lab_id_filler_item_id_fkey" FOREIGN KEY ("lab_id", "filler_item_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "design_revision" ADD CONSTRAINT "design_revision_lab_id_water_item_id_fkey" FOREIGN KEY ("lab_id", "water_item_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "design_revision" ADD CONSTRAINT "design_revision_lab_id_additive_item_id_fkey" FOREIGN KEY ("lab_id", "additive_item_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "design_revision" ADD CONSTRAINT "design_revision_lab_id_copied_from_id_fkey" FOREIGN KEY ("lab_id", "copied_from_id") REFERENCES "design_revision"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "design_method" ADD CONSTRAINT "design_method_lab_id_design_revision_id_fkey" FOREIGN KEY ("lab_id", "design_revision_id") REFERENCES "design_revision"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "design_method" ADD CONSTRAINT "design_method_lab_id_edition_id_fkey" FOREIGN KEY ("lab_id", "edition_id") REFERENCES "method_edition"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "design_method" ADD CONSTRAINT "design_method_lab_id_machine_id_fkey" FOREIGN KEY ("lab_id", "machine_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "mix" ADD CONSTRAINT "mix_lab_id_design_revision_id_fkey" FOREIGN KEY ("lab_id", "design_revision_id") REFERENCES "design_revision"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "mix_component" ADD CONSTRAINT "mix_component_lab_id_mix_id_fkey" FOREIGN KEY ("lab_id", "mix_id") REFERENCES "mix"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "mix_component" ADD CONSTRAINT "mix_component_lab_id_source_id_fkey" FOREIGN KEY ("lab_id", "source_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "recommendation" ADD CONSTRAINT "recommendation_lab_id_design_revision_id_fkey" FOREIGN KEY ("lab_id", "design_revision_id") REFERENCES "design_revision"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "recommendation" ADD CONSTRAINT "recommendation_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "recommendation"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "recommendation" ADD CONSTRAINT "recommendation_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "acknowledgement" ADD CONSTRAINT "acknowledgement_lab_id_design_revision_id_fkey" FOREIGN KEY ("lab_id", "design_revision_id") REFERENCES "design_revision"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "acknowledgement" ADD CONSTRAINT "acknowledgement_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "acknowledgement"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "acknowledgement" ADD CONSTRAINT "acknowledgement_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "send_back" ADD CONSTRAINT "send_back_lab_id_design_revision_id_fkey" FOREIGN KEY ("lab_id", "design_revision_id") REFERENCES "design_revision"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "send_back" ADD CONSTRAINT "send_back_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "method_edition" ADD CONSTRAINT "method_edition_lab_id_copied_from_id_fkey" FOREIGN KEY ("lab_id", "copied_from_id") REFERENCES "method_edition"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "method_edition" ADD CONSTRAINT "method_edition_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "method_edition"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "method_edition" ADD CONSTRAINT "method_edition_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "specification" ADD CONSTRAINT "specification_lab_id_copied_from_id_fkey" FOREIGN KEY ("lab_id", "copied_from_id") REFERENCES "specification"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "specification" ADD CONSTRAINT "specification_lab_id_project_id_fkey" FOREIGN KEY ("lab_id", "project_id") REFERENCES "project"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "specification" ADD CONSTRAINT "specification_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "specification"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "specification" ADD CONSTRAINT "specification_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "identity_session" ADD CONSTRAINT "identity_session_user_id_fkey" FOREIGN KEY ("user_id") REFERENCES "identity_user"("id") ON DELETE CASCADE ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "identity_account" ADD CONSTRAINT "identity_account_user_id_fkey" FOREIGN KEY ("user_id") REFERENCES "identity_user"("id") ON DELETE CASCADE ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "identity_two_factor" ADD CONSTRAINT "identity_two_factor_user_id_fkey" FOREIGN KEY ("user_id") REFERENCES "identity_user"("id") ON DELETE CASCADE ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "instrument" ADD CONSTRAINT "instrument_lab_id_fkey" FOREIGN KEY ("lab_id") REFERENCES "laboratory"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "calibration" ADD CONSTRAINT "calibration_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "calibration" ADD CONSTRAINT "calibration_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "calibration"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "calibration" ADD CONSTRAINT "calibration_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "instrument_factor" ADD CONSTRAINT "instrument_factor_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "instrument_factor" ADD CONSTRAINT "instrument_factor_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "instrument_factor"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "instrument_factor" ADD CONSTRAINT "instrument_factor_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "instrument_check" ADD CONSTRAINT "instrument_check_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "instrument_check" ADD CONSTRAINT "instrument_check_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "instrument_check"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "instrument_check" ADD CONSTRAINT "instrument_check_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "part_lot" ADD CONSTRAINT "part_lot_lab_id_fitted_on_id_fkey" FOREIGN KEY ("lab_id", "fitted_on_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "part_lot" ADD CONSTRAINT "part_lot_lab_id_fkey" FOREIGN KEY ("lab_id") REFERENCES "laboratory"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "equipment_use" ADD CONSTRAINT "equipment_use_lab_id_step_event_id_fkey" FOREIGN KEY ("lab_id", "step_event_id") REFERENCES "step_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "equipment_use" ADD CONSTRAINT "equipment_use_lab_id_reading_id_fkey" FOREIGN KEY ("lab_id", "reading_id") REFERENCES "reading"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "equipment_use" ADD CONSTRAINT "equipment_use_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "equipment_use" ADD CONSTRAINT "equipment_use_lab_id_calibration_id_fkey" FOREIGN KEY ("lab_id", "calibration_id") REFERENCES "calibration"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "equipment_use" ADD CONSTRAINT "equipment_use_lab_id_factor_id_fkey" FOREIGN KEY ("lab_id", "factor_id") REFERENCES "instrument_factor"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "equipment_use" ADD CONSTRAINT "equipment_use_lab_id_part_lot_id_fkey" FOREIGN KEY ("lab_id", "part_lot_id") REFERENCES "part_lot"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "equipment_use" ADD CONSTRAINT "equipment_use_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "item" ADD CONSTRAINT "item_lab_id_source_id_fkey" FOREIGN KEY ("lab_id", "source_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "item" ADD CONSTRAINT "item_lab_id_mix_id_fkey" FOREIGN KEY ("lab_id", "mix_id") REFERENCES "mix"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "item" ADD CONSTRAINT "item_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "item_parent" ADD CONSTRAINT "item_parent_lab_id_child_id_fkey" FOREIGN KEY ("lab_id", "child_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "item_parent" ADD CONSTRAINT "item_parent_lab_id_parent_id_fkey" FOREIGN KEY ("lab_id", "parent_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "item_now" ADD CONSTRAINT "item_now_lab_id_item_id_fkey" FOREIGN KEY ("lab_id", "item_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "item_now" ADD CONSTRAINT "item_now_lab_id_custodian_id_fkey" FOREIGN KEY ("lab_id", "custodian_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "item_now" ADD CONSTRAINT "item_now_lab_id_place_id_fkey" FOREIGN KEY ("lab_id", "place_id") REFERENCES "place"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "item_now" ADD CONSTRAINT "item_now_lab_id_last_event_id_fkey" FOREIGN KEY ("lab_id", "last_event_id") REFERENCES "custody_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "custody_event" ADD CONSTRAINT "custody_event_lab_id_item_id_fkey" FOREIGN KEY ("lab_id", "item_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "custody_event" ADD CONSTRAINT "custody_event_lab_id_from_member_id_fkey" FOREIGN KEY ("lab_id", "from_member_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "custody_event" ADD CONSTRAINT "custody_event_lab_id_from_place_id_fkey" FOREIGN KEY ("lab_id", "from_place_id") REFERENCES "place"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "custody_event" ADD CONSTRAINT "custody_event_lab_id_to_member_id_fkey" FOREIGN KEY ("lab_id", "to_member_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "custody_event" ADD CONSTRAINT "custody_event_lab_id_to_place_id_fkey" FOREIGN KEY ("lab_id", "to_place_id") REFERENCES "place"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "custody_event" ADD CONSTRAINT "custody_event_lab_id_offer_id_fkey" FOREIGN KEY ("lab_id", "offer_id") REFERENCES "custody_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "custody_event" ADD CONSTRAINT "custody_event_lab_id_authority_id_fkey" FOREIGN KEY ("lab_id", "authority_id") REFERENCES "signature"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "custody_event" ADD CONSTRAINT "custody_event_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "custody_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "custody_event" ADD CONSTRAINT "custody_event_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "client" ADD CONSTRAINT "client_lab_id_fkey" FOREIGN KEY ("lab_id") REFERENCES "laboratory"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "place" ADD CONSTRAINT "place_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "place" ADD CONSTRAINT "place_lab_id_fkey" FOREIGN KEY ("lab_id") REFERENCES "laboratory"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "counter" ADD CONSTRAINT "counter_lab_id_fkey" FOREIGN KEY ("lab_id") REFERENCES "laboratory"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "request_key" ADD CONSTRAINT "request_key_lab_id_actor_id_fkey" FOREIGN KEY ("lab_id", "actor_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "ledger_entry" ADD CONSTRAINT "ledger_entry_lab_id_actor_id_fkey" FOREIGN KEY ("lab_id", "actor_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "ledger_entry" ADD CONSTRAINT "ledger_entry_lab_id_project_id_fkey" FOREIGN KEY ("lab_id", "project_id") REFERENCES "project"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "ledger_entry" ADD CONSTRAINT "ledger_entry_lab_id_client_id_fkey" FOREIGN KEY ("lab_id", "client_id") REFERENCES "client"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "ledger_seal" ADD CONSTRAINT "ledger_seal_lab_id_entry_id_fkey" FOREIGN KEY ("lab_id", "entry_id") REFERENCES "ledger_entry"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "ledger_unsealed" ADD CONSTRAINT "ledger_unsealed_lab_id_entry_id_fkey" FOREIGN KEY ("lab_id", "entry_id") REFERENCES "ledger_entry"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "ledger_head_print" ADD CONSTRAINT "ledger_head_print_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "membership" ADD CONSTRAINT "membership_lab_id_client_id_fkey" FOREIGN KEY ("lab_id", "client_id") REFERENCES "client"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "membership" ADD CONSTRAINT "membership_lab_id_fkey" FOREIGN KEY ("lab_id") REFERENCES "laboratory"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_lab_id_client_id_fkey" FOREIGN KEY ("lab_id", "client_id") REFERENCES "client"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_lab_id_membership_id_fkey" FOREIGN KEY ("lab_id", "membership_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "authorisation" ADD CONSTRAINT "authorisation_lab_id_membership_id_fkey" FOREIGN KEY ("lab_id", "membership_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "authorisation" ADD CONSTRAINT "authorisation_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "authorisation"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "authorisation" ADD CONSTRAINT "authorisation_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "project" ADD CONSTRAINT "project_lab_id_client_id_fkey" FOREIGN KEY ("lab_id", "client_id") REFERENCES "client"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "deviation" ADD CONSTRAINT "deviation_lab_id_test_id_fkey" FOREIGN KEY ("lab_id", "test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "deviation" ADD CONSTRAINT "deviation_lab_id_item_id_fkey" FOREIGN KEY ("lab_id", "item_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "deviation" ADD CONSTRAINT "deviation_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "deviation" ADD CONSTRAINT "deviation_lab_id_design_revision_id_fkey" FOREIGN KEY ("lab_id", "design_revision_id") REFERENCES "design_revision"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "deviation" ADD CONSTRAINT "deviation_lab_id_reading_id_fkey" FOREIGN KEY ("lab_id", "reading_id") REFERENCES "reading"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "deviation" ADD CONSTRAINT "deviation_lab_id_window_outcome_id_fkey" FOREIGN KEY ("lab_id", "window_outcome_id") REFERENCES "window_outcome"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "deviation" ADD CONSTRAINT "deviation_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "deviation_event" ADD CONSTRAINT "deviation_event_lab_id_deviation_id_fkey" FOREIGN KEY ("lab_id", "deviation_id") REFERENCES "deviation"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "deviation_event" ADD CONSTRAINT "deviation_event_lab_id_signature_id_fkey" FOREIGN KEY ("lab_id", "signature_id") REFERENCES "signature"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "deviation_event" ADD CONSTRAINT "deviation_event_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "signed_content" ADD CONSTRAINT "signed_content_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "signature" ADD CONSTRAINT "signature_lab_id_signed_content_id_fkey" FOREIGN KEY ("lab_id", "signed_content_id") REFERENCES "signed_content"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "signature" ADD CONSTRAINT "signature_lab_id_signer_id_fkey" FOREIGN KEY ("lab_id", "signer_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "signature" ADD CONSTRAINT "signature_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "report" ADD CONSTRAINT "report_lab_id_replaces_id_fkey" FOREIGN KEY ("lab_id", "replaces_id") REFERENCES "report"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "report" ADD CONSTRAINT "report_lab_id_project_id_fkey" FOREIGN KEY ("lab_id", "project_id") REFERENCES "project"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "report" ADD CONSTRAINT "report_lab_id_client_id_fkey" FOREIGN KEY ("lab_id", "client_id") REFERENCES "client"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "report" ADD CONSTRAINT "report_lab_id_design_revision_id_fkey" FOREIGN KEY ("lab_id", "design_revision_id") REFERENCES "design_revision"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "report" ADD CONSTRAINT "report_lab_id_signed_content_id_fkey" FOREIGN KEY ("lab_id", "signed_content_id") REFERENCES "signed_content"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "report" ADD CONSTRAINT "report_lab_id_signature_id_fkey" FOREIGN KEY ("lab_id", "signature_id") REFERENCES "signature"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "report" ADD CONSTRAINT "report_lab_id_pdf_id_fkey" FOREIGN KEY ("lab_id", "pdf_id") REFERENCES "attachment"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "report" ADD CONSTRAINT "report_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "report_event" ADD CONSTRAINT "report_event_lab_id_report_id_fkey" FOREIGN KEY ("lab_id", "report_id") REFERENCES "report"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "report_event" ADD CONSTRAINT "report_event_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "attachment" ADD CONSTRAINT "attachment_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "attachment_body" ADD CONSTRAINT "attachment_body_lab_id_attachment_id_fkey" FOREIGN KEY ("lab_id", "attachment_id") REFERENCES "attachment"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "result" ADD CONSTRAINT "result_lab_id_test_id_fkey" FOREIGN KEY ("lab_id", "test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "result" ADD CONSTRAINT "result_lab_id_mix_id_fkey" FOREIGN KEY ("lab_id", "mix_id") REFERENCES "mix"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "result" ADD CONSTRAINT "result_lab_id_design_revision_id_fkey" FOREIGN KEY ("lab_id", "design_revision_id") REFERENCES "design_revision"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "result" ADD CONSTRAINT "result_lab_id_edition_id_fkey" FOREIGN KEY ("lab_id", "edition_id") REFERENCES "method_edition"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "result" ADD CONSTRAINT "result_lab_id_attachment_id_fkey" FOREIGN KEY ("lab_id", "attachment_id") REFERENCES "attachment"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "result" ADD CONSTRAINT "result_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "result"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "result" ADD CONSTRAINT "result_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "result_input" ADD CONSTRAINT "result_input_lab_id_result_id_fkey" FOREIGN KEY ("lab_id", "result_id") REFERENCES "result"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "result_input" ADD CONSTRAINT "result_input_lab_id_reading_id_fkey" FOREIGN KEY ("lab_id", "reading_id") REFERENCES "reading"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "result_input" ADD CONSTRAINT "result_input_lab_id_input_result_id_fkey" FOREIGN KEY ("lab_id", "input_result_id") REFERENCES "result"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "result_input" ADD CONSTRAINT "result_input_lab_id_factor_id_fkey" FOREIGN KEY ("lab_id", "factor_id") REFERENCES "instrument_factor"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "calculation" ADD CONSTRAINT "calculation_lab_id_result_id_fkey" FOREIGN KEY ("lab_id", "result_id") REFERENCES "result"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "test_event" ADD CONSTRAINT "test_event_lab_id_item_id_fkey" FOREIGN KEY ("lab_id", "item_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "test_event" ADD CONSTRAINT "test_event_lab_id_edition_id_fkey" FOREIGN KEY ("lab_id", "edition_id") REFERENCES "method_edition"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "test_event" ADD CONSTRAINT "test_event_lab_id_mix_id_fkey" FOREIGN KEY ("lab_id", "mix_id") REFERENCES "mix"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "test_event" ADD CONSTRAINT "test_event_lab_id_design_revision_id_fkey" FOREIGN KEY ("lab_id", "design_revision_id") REFERENCES "design_revision"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "test_event" ADD CONSTRAINT "test_event_lab_id_project_id_fkey" FOREIGN KEY ("lab_id", "project_id") REFERENCES "project"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "test_event" ADD CONSTRAINT "test_event_lab_id_replaces_id_fkey" FOREIGN KEY ("lab_id", "replaces_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "test_event" ADD CONSTRAINT "test_event_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "test_now" ADD CONSTRAINT "test_now_lab_id_test_id_fkey" FOREIGN KEY ("lab_id", "test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "test_now" ADD CONSTRAINT "test_now_lab_id_assignee_id_fkey" FOREIGN KEY ("lab_id", "assignee_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "load" ADD CONSTRAINT "load_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "load" ADD CONSTRAINT "load_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "step_event" ADD CONSTRAINT "step_event_lab_id_test_id_fkey" FOREIGN KEY ("lab_id", "test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "step_event" ADD CONSTRAINT "step_event_lab_id_load_id_fkey" FOREIGN KEY ("lab_id", "load_id") REFERENCES "load"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "step_event" ADD CONSTRAINT "step_event_lab_id_attachment_id_fkey" FOREIGN KEY ("lab_id", "attachment_id") REFERENCES "attachment"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "step_event" ADD CONSTRAINT "step_event_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "step_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "step_event" ADD CONSTRAINT "step_event_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_lab_id_test_id_fkey" FOREIGN KEY ("lab_id", "test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_lab_id_item_id_fkey" FOREIGN KEY ("lab_id", "item_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_lab_id_load_id_fkey" FOREIGN KEY ("lab_id", "load_id") REFERENCES "load"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_lab_id_instrument_check_id_fkey" FOREIGN KEY ("lab_id", "instrument_check_id") REFERENCES "instrument_check"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_lab_id_calibration_id_fkey" FOREIGN KEY ("lab_id", "calibration_id") REFERENCES "calibration"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_lab_id_attachment_id_fkey" FOREIGN KEY ("lab_id", "attachment_id") REFERENCES "attachment"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "reading"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "slot_now" ADD CONSTRAINT "slot_now_lab_id_test_id_fkey" FOREIGN KEY ("lab_id", "test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "slot_now" ADD CONSTRAINT "slot_now_lab_id_reading_id_fkey" FOREIGN KEY ("lab_id", "reading_id") REFERENCES "reading"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "window_outcome" ADD CONSTRAINT "window_outcome_lab_id_test_id_fkey" FOREIGN KEY ("lab_id", "test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "window_outcome" ADD CONSTRAINT "window_outcome_lab_id_after_event_id_fkey" FOREIGN KEY ("lab_id", "after_event_id") REFERENCES "step_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "window_outcome" ADD CONSTRAINT "window_outcome_lab_id_after_reading_id_fkey" FOREIGN KEY ("lab_id", "after_reading_id") REFERENCES "reading"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "window_outcome" ADD CONSTRAINT "window_outcome_lab_id_event_id_fkey" FOREIGN KEY ("lab_id", "event_id") REFERENCES "step_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "window_outcome" ADD CONSTRAINT "window_outcome_lab_id_event_reading_id_fkey" FOREIGN KEY ("lab_id", "event_reading_id") REFERENCES "reading"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "window_outcome" ADD CONSTRAINT "window_outcome_lab_id_edition_id_fkey" FOREIGN KEY ("lab_id", "edition_id") REFERENCES "method_edition"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "window_outcome" ADD CONSTRAINT "window_outcome_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "window_outcome"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "window_outcome" ADD CONSTRAINT "window_outcome_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "due" ADD CONSTRAINT "due_lab_id_test_id_fkey" FOREIGN KEY ("lab_id", "test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "due" ADD CONSTRAINT "due_lab_id_assignee_id_fkey" FOREIGN KEY ("lab_id", "assignee_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "due" ADD CONSTRAINT "due_lab_id_project_id_fkey" FOREIGN KEY ("lab_id", "project_id") REFERENCES "project"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "assignment" ADD CONSTRAINT "assignment_lab_id_test_id_fkey" FOREIGN KEY ("lab_id", "test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "assignment" ADD CONSTRAINT "assignment_lab_id_to_member_id_fkey" FOREIGN KEY ("lab_id", "to_member_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "assignment" ADD CONSTRAINT "assignment_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "assignment"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "assignment" ADD CONSTRAINT "assignment_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "plan" ADD CONSTRAINT "plan_lab_id_test_id_fkey" FOREIGN KEY ("lab_id", "test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "plan" ADD CONSTRAINT "plan_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

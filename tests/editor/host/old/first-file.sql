-- The shelf as the first version of the program made it in its file, with one book, one edition and one job. It is never changed: newer versions must open it.
CREATE TABLE "kysely_migration" ("name" varchar(255) not null primary key, "timestamp" varchar(255) not null);
CREATE TABLE "kysely_migration_lock" ("id" varchar(255) not null primary key, "is_locked" integer default 0 not null);
CREATE TABLE "books" ("name" text primary key, "title" text not null, "begun" bigint not null);
CREATE TABLE "drafts" ("book" text primary key references "books" ("name"), "version" bigint not null, "text" text not null, "print" text not null, "who" text not null, "at" bigint not null);
CREATE TABLE "draft_history" ("book" text not null references "books" ("name"), "version" bigint not null, "who" text not null, "at" bigint not null, "print" text not null, "whole" text, "change" text, constraint "draft_history_key" primary key ("book", "version"));
CREATE TABLE "texts" ("print" text primary key, "text" text not null);
CREATE TABLE "editions" ("book" text not null references "books" ("name"), "number" bigint not null, "title" text not null, "print" text not null, "stands" text not null, "who" text not null, "at" bigint not null, "why" text not null, "standing" text not null, "faults" text not null, "reason" text, constraint "editions_key" primary key ("book", "number"));
CREATE TABLE "jobs" ("id" text primary key, "title" text not null, "book" text not null, "edition" bigint, "print" text not null, "state" text not null, "begun" bigint not null, "changed" bigint not null, "signed_at" bigint, "signed_by" text, "after_signing" bigint not null, "search" text not null, "agreement" text not null, "trace" blob);
CREATE TABLE "job_entries" ("id" text primary key, "job" text not null, "at" bigint not null, "device" text not null, "delivered_by" text not null, "delivered_at" bigint not null, "print" text not null, "body" text not null);
CREATE TABLE "photos" ("print" text primary key, "type" text not null, "bytes" bigint not null, "who" text not null, "at" bigint not null, "content" blob not null);
CREATE TABLE "log" ("seq" bigint primary key, "at" bigint not null, "who" text not null, "what" text not null, "body" text not null, "before" text not null, "hash" text not null);
CREATE INDEX "draft_history_print" on "draft_history" ("print");
CREATE INDEX "editions_print" on "editions" ("print");
CREATE INDEX "jobs_changed" on "jobs" ("changed", "id");
CREATE INDEX "jobs_waiting" on "jobs" ("agreement");
CREATE INDEX "job_entries_job" on "job_entries" ("job");
insert into kysely_migration ("name", "timestamp") values ('0001-first', '2026-11-25T14:18:34.047Z');
insert into kysely_migration_lock ("id", "is_locked") values ('migration_lock', 0);
insert into books ("name", "title", "begun") values ('small-panels', 'Small panels', 1795616314069);
insert into texts ("print", "text") values ('e599fb688c93595c914931f69cb9330464fbf41552031495714f78f440d289fb', 'book small-panels, edition 1
    "Small panels"
');
insert into drafts ("book", "version", "text", "print", "who", "at") values ('small-panels', 2, 'book small-panels, edition 1
    "Small panels"

part "More"
', '56abb55504ec153bda5a1e61c0668a47acd48317eb6292c0fca35729e9b8160c', 'T. Hale', 1795616314082);
insert into draft_history ("book", "version", "who", "at", "print", "whole", "change") values ('small-panels', 1, 'Ilse Marrow', 1795616314069, 'e599fb688c93595c914931f69cb9330464fbf41552031495714f78f440d289fb', 'book small-panels, edition 1
    "Small panels"
', null);
insert into draft_history ("book", "version", "who", "at", "print", "whole", "change") values ('small-panels', 2, 'T. Hale', 1795616314082, '56abb55504ec153bda5a1e61c0668a47acd48317eb6292c0fca35729e9b8160c', null, '{"at":48,"removed":0,"inserted":"\npart \"More\"\n"}');
insert into editions ("book", "number", "title", "print", "stands", "who", "at", "why", "standing", "faults", "reason") values ('small-panels', 1, 'Small panels', 'e599fb688c93595c914931f69cb9330464fbf41552031495714f78f440d289fb', '[]', 'Ilse Marrow', 1795616314092, 'first', '{"goals":0,"proved":0,"done":true,"engine":"0.1.0"}', '[]', null);
insert into jobs ("id", "title", "book", "edition", "print", "state", "begun", "changed", "signed_at", "signed_by", "after_signing", "search", "agreement", "trace") values ('3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11', 'front wing', 'small-panels', 1, 'e599fb688c93595c914931f69cb9330464fbf41552031495714f78f440d289fb', 'open', 1790812800000, 1790812801000, null, null, 0, 'front wing
small-panels
resin
100 g
lot-1', 'not signed', null);
insert into job_entries ("id", "job", "at", "device", "delivered_by", "delivered_at", "print", "body") values ('3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a12', '3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11', 1790812800000, 'tablet 1', 'R. Vane', 1795616314111, 'c22602a3a2d142f5a72ebdd10d173fc1bc06b18b2da1331e33d84edb70b44b48', '{"id":"3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a12","job":"3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11","at":1790812800000,"device":"tablet 1","does":"begin","book":{"name":"small-panels","edition":1,"print":"e599fb688c93595c914931f69cb9330464fbf41552031495714f78f440d289fb","sealed":true},"title":"front wing"}');
insert into job_entries ("id", "job", "at", "device", "delivered_by", "delivered_at", "print", "body") values ('3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a13', '3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11', 1790812801000, 'tablet 1', 'R. Vane', 1795616314111, 'bcaec53021f5800144e5940efab3489fddf57b6371908180a5ca5dac5b972082', '{"id":"3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a13","job":"3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11","at":1790812801000,"device":"tablet 1","does":"used","line":"u1","what":"resin","amount":"100 g","lot":"LOT-1"}');
insert into photos ("print", "type", "bytes", "who", "at", "content") values ('6456b2ac4bae7c410724a1dbd8eeaaf2a9cb6b03c3e6c82ccd8101b284656791', 'image/jpeg', 6, 'R. Vane', 1795616314125, x'ffd8ff010203');
insert into log ("seq", "at", "who", "what", "body", "before", "hash") values (1, 1795616314069, 'Ilse Marrow', 'draft', '{"book":"small-panels","version":1,"print":"e599fb688c93595c914931f69cb9330464fbf41552031495714f78f440d289fb"}', '0000000000000000000000000000000000000000000000000000000000000000', '7258f062abbd10b6215f62fefa84b26929a517c88a0fbef9282aacd4d6185ca8');
insert into log ("seq", "at", "who", "what", "body", "before", "hash") values (2, 1795616314082, 'T. Hale', 'draft', '{"book":"small-panels","version":2,"print":"56abb55504ec153bda5a1e61c0668a47acd48317eb6292c0fca35729e9b8160c"}', '7258f062abbd10b6215f62fefa84b26929a517c88a0fbef9282aacd4d6185ca8', 'dd5ab83a2f6c22c4da8caf6676d57fd3266a188bed9a3fdb2397f3ced16d18b2');
insert into log ("seq", "at", "who", "what", "body", "before", "hash") values (3, 1795616314092, 'Ilse Marrow', 'edition', '{"book":"small-panels","number":1,"print":"e599fb688c93595c914931f69cb9330464fbf41552031495714f78f440d289fb","faults":0}', 'dd5ab83a2f6c22c4da8caf6676d57fd3266a188bed9a3fdb2397f3ced16d18b2', 'c28e05977916f3f5a0de180507ce0377d1a84137e8285c58e344f2fbc1eec13d');
insert into log ("seq", "at", "who", "what", "body", "before", "hash") values (4, 1795616314111, 'R. Vane', 'entries', '{"jobs":["3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11"],"entries":[["3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a12","c22602a3a2d142f5a72ebdd10d173fc1bc06b18b2da1331e33d84edb70b44b48"],["3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a13","bcaec53021f5800144e5940efab3489fddf57b6371908180a5ca5dac5b972082"]]}', 'c28e05977916f3f5a0de180507ce0377d1a84137e8285c58e344f2fbc1eec13d', '2e201d1277de88f7c8223815f517fa7ab7042674ffbfd75cb06723a4f126b5f6');
insert into log ("seq", "at", "who", "what", "body", "before", "hash") values (5, 1795616314125, 'R. Vane', 'photo', '{"photo":"6456b2ac4bae7c410724a1dbd8eeaaf2a9cb6b03c3e6c82ccd8101b284656791","bytes":6}', '2e201d1277de88f7c8223815f517fa7ab7042674ffbfd75cb06723a4f126b5f6', '9cec78207af7891cfababaee9110a53e494001866cb7a479492216efefb9bf39');
CREATE TRIGGER "texts_no_update" before update on "texts" begin select raise(abort, 'What is in this table is never changed.'); end;
CREATE TRIGGER "texts_no_delete" before delete on "texts" begin select raise(abort, 'What is in this table is never changed.'); end;
CREATE TRIGGER "editions_no_update" before update on "editions" begin select raise(abort, 'What is in this table is never changed.'); end;
CREATE TRIGGER "editions_no_delete" before delete on "editions" begin select raise(abort, 'What is in this table is never changed.'); end;
CREATE TRIGGER "job_entries_no_update" before update on "job_entries" begin select raise(abort, 'What is in this table is never changed.'); end;
CREATE TRIGGER "job_entries_no_delete" before delete on "job_entries" begin select raise(abort, 'What is in this table is never changed.'); end;
CREATE TRIGGER "photos_no_update" before update on "photos" begin select raise(abort, 'What is in this table is never changed.'); end;
CREATE TRIGGER "photos_no_delete" before delete on "photos" begin select raise(abort, 'What is in this table is never changed.'); end;
CREATE TRIGGER "log_no_update" before update on "log" begin select raise(abort, 'What is in this table is never changed.'); end;
CREATE TRIGGER "log_no_delete" before delete on "log" begin select raise(abort, 'What is in this table is never changed.'); end;
CREATE TRIGGER "draft_history_no_update" before update on "draft_history" begin select raise(abort, 'What is in this table is never changed.'); end;
CREATE TRIGGER "draft_history_no_delete" before delete on "draft_history" begin select raise(abort, 'What is in this table is never changed.'); end;
